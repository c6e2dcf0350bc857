namespace Bench.Cli.Running;

/// <summary>
/// The next line from the console. Its reader blocks and heeds no token, so a question that is withdrawn leaves it waiting: the
/// next question takes that over rather than letting it swallow the answer.
/// </summary>
/// <param name="read">Reads a line, and blocks until there is one.</param>
internal sealed class PendingLine(Func<string?> read)
{
    private Task<string?>? _pending;

    /// <summary>Whether the line read last was begun for a question that was withdrawn.</summary>
    public bool WasAskedBefore { get; private set; }

    /// <summary>Waits for a line; null at the end of input.</summary>
    public async ValueTask<string?> ReadAsync(CancellationToken cancel)
    {
        WasAskedBefore = _pending is not null;

        // On a thread that ends with the process, so that Ctrl-C here needs no Enter after it.
        _pending ??= Task.Run(read, CancellationToken.None);
        string? line = await _pending.WaitAsync(cancel);
        _pending = null;
        return line;
    }
}

using System.Runtime.CompilerServices;
using Bench.Model.BenchFiles;
using Bench.Model.Instruments;

namespace Bench.Devices.Links;

/// <summary>
/// A link that is opened again after it went away: an adapter that was pulled and plugged in, a connection that was reset.
/// The write that finds it gone opens it and fails all the same: it was decided on before, so whoever made it asks the
/// device first what has become of it (S8). What must not go on after a loss holds <see cref="UntilLost"/>.
/// </summary>
public sealed class ReopeningLink : ILink
{
    /// <summary>Least time between two attempts: opening costs the adapter, the network and the peer something.</summary>
    public static readonly TimeSpan LeastInterval = TimeSpan.FromMilliseconds(100);

    /// <summary>
    /// Longest attempt. Switching off waits for it, and is given up after two seconds; a device on the same floor answers
    /// within milliseconds.
    /// </summary>
    public static readonly TimeSpan LongestAttempt = TimeSpan.FromMilliseconds(300);

    private readonly ILinkOpener _opener;
    private readonly LinkDescription _description;
    private readonly TimeProvider _time;
    private volatile CancellationTokenSource _opening = new();
    private ILink? _link;
    private long? _tried;
    private bool _closed;

    private ReopeningLink(ILinkOpener opener, LinkDescription description, TimeProvider time, ILink link)
    {
        _opener = opener;
        _description = description;
        _time = time;
        _link = link;
        CharacterTime = link.CharacterTime;
    }

    /// <inheritdoc/>
    public string Name => _description.Name;

    /// <inheritdoc/>
    public TimeSpan CharacterTime { get; }

    /// <summary>Cancelled when the link as it is open now is lost, and for good: an opening after that has a token of its own.</summary>
    public CancellationToken UntilLost => _opening.Token;

    /// <summary>Opens a link for the first time.</summary>
    /// <param name="opener">Opens it, and opens it again.</param>
    /// <param name="description">The link.</param>
    /// <param name="time">Clock of attempts.</param>
    /// <param name="cancel">Cancels the first opening.</param>
    /// <exception cref="DeviceFaultException">It can't be opened; the fault says what to mend.</exception>
    public static async ValueTask<ReopeningLink> OpenAsync(ILinkOpener opener, LinkDescription description, TimeProvider time, CancellationToken cancel)
    {
        ArgumentNullException.ThrowIfNull(opener);
        return new ReopeningLink(opener, description, time, await opener.OpenAsync(description, cancel));
    }

    /// <inheritdoc/>
    [AsyncMethodBuilder(typeof(PoolingAsyncValueTaskMethodBuilder))]
    public async ValueTask WriteAsync(ReadOnlyMemory<byte> bytes, CancellationToken cancel)
    {
        if (_link is not { } link)
        {
            await TryReopenAsync();
            throw new IOException($"{Name} went away");
        }

        try
        {
            await link.WriteAsync(bytes, cancel);
        }
        catch (IOException)
        {
            await LoseAsync(link);
            throw;
        }
    }

    /// <inheritdoc/>
    [AsyncMethodBuilder(typeof(PoolingAsyncValueTaskMethodBuilder<>))]
    public async ValueTask<int> ReadAsync(Memory<byte> buffer, CancellationToken cancel)
    {
        ILink link = _link ?? throw new IOException($"{Name} went away");
        try
        {
            int read = await link.ReadAsync(buffer, cancel);
            if (read == 0)
            {
                await LoseAsync(link);
            }

            return read;
        }
        catch (IOException)
        {
            await LoseAsync(link);
            throw;
        }
    }

    /// <inheritdoc/>
    public void DiscardInput() => _link?.DiscardInput();

    /// <inheritdoc/>
    public async ValueTask DisposeAsync()
    {
        _closed = true;
        if (_link is { } link)
        {
            _link = null;
            await link.DisposeAsync();
        }
    }

    // Closed at once: while a vanished port is held, the system gives the one that returns another name.
    private async ValueTask LoseAsync(ILink link)
    {
        if (_closed || !ReferenceEquals(_link, link))
        {
            return;
        }

        _link = null;
        SayLost();
        await link.DisposeAsync();
    }

    // Not CancelAsync, which would leave the thread.
    private void SayLost() => _opening.Cancel();

    private async ValueTask TryReopenAsync()
    {
        if (_closed || (_tried is { } tried && _time.GetElapsedTime(tried) < LeastInterval))
        {
            return;
        }

        _tried = _time.GetTimestamp();
        using CancellationTokenSource late = new(LongestAttempt, _time);
        try
        {
            ILink link = await _opener.OpenAsync(_description, late.Token);
            if (_closed)
            {
                await link.DisposeAsync();
                return;
            }

            _opening = new CancellationTokenSource();
            _link = link;
        }
        catch (Exception e) when (e is DeviceFaultException or OperationCanceledException)
        {
            // Still gone. Whoever writes next tries again.
        }
    }
}

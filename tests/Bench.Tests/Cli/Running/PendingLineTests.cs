using System.Collections.Concurrent;
using Bench.Cli.Running;

namespace Bench.Tests.Cli.Running;

/// <summary>A console whose reader can't be stopped.</summary>
public sealed class PendingLineTests : IDisposable
{
    private readonly BlockingCollection<string?> _typed = [];
    private readonly PendingLine _line;

    public PendingLineTests() => _line = new PendingLine(_typed.Take);

    [Fact]
    public async Task Read_QuestionWithdrawn_TheNextOneGetsTheNextLine()
    {
        using CancellationTokenSource withdrawn = new();
        Task<string?> first = _line.ReadAsync(withdrawn.Token).AsTask();
        await withdrawn.CancelAsync();
        await Assert.ThrowsAnyAsync<OperationCanceledException>(() => first);

        _typed.Add("yes", TestContext.Current.CancellationToken);
        Assert.Equal("yes", await _line.ReadAsync(TestContext.Current.CancellationToken));
        Assert.True(_line.WasAskedBefore);

        _typed.Add("no", TestContext.Current.CancellationToken);
        Assert.Equal("no", await _line.ReadAsync(TestContext.Current.CancellationToken));
        Assert.False(_line.WasAskedBefore);
    }

    public void Dispose() => _typed.Dispose();
}

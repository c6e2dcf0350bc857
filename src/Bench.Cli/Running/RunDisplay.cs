using Bench.Cli.Output;
using Bench.Running;

namespace Bench.Cli.Running;

/// <summary>Shows progress: drawn where a person looks, as lines elsewhere.</summary>
internal sealed class RunDisplay : IDisposable
{
    private readonly IDisposable? _drawn;

    private RunDisplay(IRunObserver observer, IDisposable? drawn)
    {
        Observer = observer;
        _drawn = drawn;
    }

    /// <summary>Takes the progress.</summary>
    public IRunObserver Observer { get; }

    /// <summary>Opens the display that fits this terminal.</summary>
    public static RunDisplay Open()
    {
        if (!Terminal.CanDraw)
        {
            return new RunDisplay(new ProgressLines(), null);
        }

        ProgressBoard board = new();
        return new RunDisplay(board, board);
    }

    /// <inheritdoc/>
    public void Dispose() => _drawn?.Dispose();
}

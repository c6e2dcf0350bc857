using Bench.Cli.Output;
using Bench.Running;

namespace Bench.Cli.Running;

/// <summary>Shows the one unit under test: drawn where a person looks, as lines elsewhere. Its verdict follows at once, so its end says nothing.</summary>
internal sealed class RunDisplay : IUnitsDisplay
{
    private readonly ProgressBoard? _board = Terminal.CanDraw ? new ProgressBoard() : null;

    /// <summary>Opens the display that fits this terminal.</summary>
    public static IUnitsDisplay For(IReadOnlyList<PlannedUnit> units) =>
        units.Count == 1 ? new RunDisplay() : Terminal.CanDraw ? new UnitBoard(units) : new UnitLines(units);

    /// <inheritdoc/>
    public IRunObserver Observer(int unit) => _board is null ? new ProgressLines() : _board;

    /// <inheritdoc/>
    public void Ended(int unit, UnitResult result)
    {
    }

    /// <inheritdoc/>
    public void Dispose() => _board?.Dispose();
}

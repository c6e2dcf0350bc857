using Bench.Cli.Output;
using Bench.Running;

namespace Bench.Cli.Running;

/// <summary>Several units as plain lines, each with position and serial number before it.</summary>
internal sealed class UnitLines(IReadOnlyList<PlannedUnit> units) : IUnitsDisplay
{
    /// <inheritdoc/>
    public IRunObserver Observer(int unit) => new ProgressLines(units[unit].Name + "  ");

    /// <inheritdoc/>
    public void Ended(int unit, UnitResult result) => Terminal.Say($"{units[unit].Name}  ended: {result.Line}");

    /// <inheritdoc/>
    public void Dispose()
    {
    }
}

using Bench.Running;

namespace Bench.Cli.Running;

/// <summary>Shows how the units under test are getting on. Runs call from threads of their own.</summary>
internal interface IUnitsDisplay : IDisposable
{
    /// <summary>Takes the progress of one unit.</summary>
    /// <param name="unit">Which, from 0.</param>
    IRunObserver Observer(int unit);

    /// <summary>Says that a unit's run has ended.</summary>
    /// <param name="unit">Which, from 0.</param>
    /// <param name="result">How.</param>
    void Ended(int unit, UnitResult result);
}

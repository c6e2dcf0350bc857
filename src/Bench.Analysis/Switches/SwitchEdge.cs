namespace Bench.Analysis.Switches;

/// <summary>An instant at which a switch closed or opened, somewhere between two readings.</summary>
/// <param name="TimeS">The middle between them, seconds of the run.</param>
/// <param name="GapS">Time between them, seconds.</param>
internal readonly record struct SwitchEdge(double TimeS, double GapS)
{
    /// <summary>Standard uncertainty of the instant, seconds: rectangular over the gap (GUM 4.3.7).</summary>
    public double UncertaintyS => GapS / Math.Sqrt(12);
}

using Bench.Analysis.Motion;
using Bench.Analysis.Statistics;

namespace Bench.Analysis.Motor;

/// <summary>
/// Means over the steady part of a move. Voltage, current and speed are tied by a linear equation, so their means are tied
/// by it too, seats and all; medians are not.
/// </summary>
/// <param name="CurrentA">Mean current, amperes.</param>
/// <param name="VoltageV">Mean voltage, volts.</param>
/// <param name="SpeedCountsPerS">Mean speed, counts per second, not negative.</param>
internal sealed record SteadyMeans(double CurrentA, double VoltageV, double SpeedCountsPerS)
{
    private const int LeastRows = 8;

    /// <summary>The means; null unless the unit turned for long enough.</summary>
    public static SteadyMeans? Of(MoveCourse course, MeterRows steady)
    {
        if (!course.Turned || steady.Length < LeastRows)
        {
            return null;
        }

        double travel = Math.Abs(course.Counts[course.SteadyLast] - course.Counts[course.SteadyFirst]);
        return new SteadyMeans(
            Describe.Mean(steady.Currents),
            Describe.Mean(steady.Voltages),
            travel / (course.SteadyToS - course.SteadyFromS));
    }
}

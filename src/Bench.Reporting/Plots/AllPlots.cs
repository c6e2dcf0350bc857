using Bench.Model.Features;
using Bench.Model.Runs;
using Bench.Model.Traces;

namespace Bench.Reporting.Plots;

/// <summary>Every plot of a run.</summary>
public static class AllPlots
{
    /// <summary>All figures in the order they are shown; those without data say why.</summary>
    /// <param name="record">The run.</param>
    /// <param name="trace">Its trace.</param>
    /// <param name="reference">What healthy units showed; null when nobody looked.</param>
    public static IReadOnlyList<Figure> Draw(RunRecord record, Trace trace, CurrentReference? reference = null) =>
    [
        RingPlot.Draw(record),
        PositionErrorPlot.Draw(record),
        IndexDriftPlot.Draw(record),
        MoveCurrentPlot.Draw(record, trace),
        AngleCurrentPlot.Draw(record, reference),
        SupplyPlot.Draw(record, trace),
        SequentialTestPlot.Draw(record),
        CausePlot.Draw(record),
    ];

    /// <summary>
    /// Id of the plot that shows a feature best. Features that no plot shows (the feedback's, the bench's links) go to
    /// the test of moves, where their failed moves are marked.
    /// </summary>
    public static string For(string feature) => feature switch
    {
        _ when feature.StartsWith("ring.", StringComparison.Ordinal) => RingPlot.Id,
        _ when feature.StartsWith("landing.", StringComparison.Ordinal) => PositionErrorPlot.Id,
        "coast.counts" => PositionErrorPlot.Id,
        _ when feature.StartsWith("index.", StringComparison.Ordinal) => IndexDriftPlot.Id,
        "count.jump_counts" => IndexDriftPlot.Id,
        "current.tight_spot_ratio" => AngleCurrentPlot.Id,
        _ when feature.StartsWith("bench.supply", StringComparison.Ordinal) => SupplyPlot.Id,
        _ when feature.StartsWith("current.", StringComparison.Ordinal) || feature.StartsWith("motion.", StringComparison.Ordinal) => MoveCurrentPlot.Id,
        _ when feature.StartsWith("motor.", StringComparison.Ordinal) => MoveCurrentPlot.Id,
        "winding.resistance_ohm" or "energy.per_revolution_j" or "speed.running_counts_per_s" => MoveCurrentPlot.Id,
        _ => SequentialTestPlot.Id,
    };
}

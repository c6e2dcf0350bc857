using Bench.Analysis.Extraction;
using Bench.Analysis.Motion;
using Bench.Analysis.Statistics;
using Bench.Analysis.Uncertainty;
using Bench.Model.Features;
using Bench.Model.Runs;

namespace Bench.Analysis.Supply;

/// <summary>Features of the bench's supply and meters (C10).</summary>
internal static class SupplyFeatures
{
    private const int LeastAtRest = 3;

    /// <summary>Least rise of current that a fall of voltage is held against, amperes.</summary>
    private const double LeastRiseA = 0.05;

    /// <summary>The features.</summary>
    public static IEnumerable<Feature> Of(RunSoFar run, RestReadings rest, BenchSnapshot bench, DateOnly today)
    {
        if (rest.VoltagesV.Count < LeastAtRest)
        {
            const string Because = "the meters gave fewer than three readings with the drive off";
            yield return Feature.Missing("bench.supply_open_v", Because);
            yield return Feature.Missing("bench.supply_source_ohm", Because);
        }
        else
        {
            double resolution = Contributions.Resolution(bench.Voltage.Scale);
            (double open, Contribution scatter) = Contributions.Median([.. rest.VoltagesV], "scatter of readings", resolution, "resolution of the voltage meter");
            yield return MeasuredFeature.Of(
                "bench.supply_open_v", open, [Contributions.Of(bench.Voltage, "voltage meter"), scatter], rest.VoltagesV.Count);
            yield return Source(run, open, scatter, Robust.Median([.. rest.CurrentsA]), resolution);
        }

        yield return Feature.Of("bench.calibration_overdue_days", Math.Max(0, today.DayNumber - GaugeStudies.Due(bench).DayNumber), 0, 1);
    }

    // (open - loaded)/(current - off current). One meter reads both voltages, so its offset and, nearly, its gain cancel.
    private static Feature Source(RunSoFar run, double open, Contribution openScatter, double off, double resolution)
    {
        List<double> ohms = [];
        List<double> rises = [];
        for (int i = 0; i < run.Features.Count; i++)
        {
            StillMove still = run.Still[i];
            double? current = still.Kind == StillKind.Locked ? still.CurrentA : run.Features[i].RunningCurrentA;
            double? voltage = still.Kind == StillKind.Locked ? still.VoltageV : run.Features[i].LoadedVoltageV;
            if (current - off is double rise && rise >= LeastRiseA && voltage is double loaded)
            {
                ohms.Add((open - loaded) / rise);
                rises.Add(rise);
            }
        }

        if (ohms.Count == 0)
        {
            return Feature.Missing("bench.supply_source_ohm", "no move drew enough current to load the supply");
        }

        double typicalRise = Robust.Median([.. rises]);
        (double median, Contribution moves) = Contributions.Median(
            [.. ohms], "scatter from move to move", resolution / typicalRise, "resolution of the voltage meter under load");
        Contribution common = openScatter with
        {
            Source = "voltage with the drive off",
            StandardUncertainty = Math.Max(openScatter.StandardUncertainty, resolution),
            Unit = "V",
            Sensitivity = 1 / typicalRise,
        };
        return MeasuredFeature.Of("bench.supply_source_ohm", median, [moves, common], ohms.Count);
    }
}

using Bench.Analysis.Extraction;
using Bench.Analysis.Supply;
using Bench.Analysis.Uncertainty;
using Bench.Model.Features;
using Bench.Model.Profiles;
using Bench.Model.Rings;
using Bench.Model.Runs;

namespace Bench.Analysis.Currents;

/// <summary>Features of the supply current (C7).</summary>
internal static class CurrentFeatures
{
    /// <summary>Rate at which an inrush is seen, samples per second: its time constant L/R is a few milliseconds at most. Common practice, no source.</summary>
    public const double LeastInrushRateHz = 1000;

    /// <summary>Counts on each side of a port that its seat bends the current over.</summary>
    public const double PortArc = 20;

    private const int SpotBins = 3;
    private const int LeastSpotSamples = 9;
    private const int LeastAtRest = 3;
    private const string NeverTurned = "the unit never turned steadily";

    /// <summary>The features.</summary>
    public static IEnumerable<Feature> Of(RunSoFar run, RestReadings rest, AngleCurrents angles, Profile profile, BenchSnapshot bench)
    {
        Contribution meter = Contributions.Of(bench.Current, "current meter");
        double resolution = Contributions.Resolution(bench.Current.Scale);
        if (rest.CurrentsA.Count < LeastAtRest)
        {
            yield return Feature.Missing("current.off_a", "the meter gave fewer than three readings with the drive off");
        }
        else
        {
            (double off, Contribution scatter) = Contributions.Median([.. rest.CurrentsA], "scatter of readings", resolution, "resolution of the current meter");
            yield return MeasuredFeature.Of("current.off_a", off, [meter, scatter], rest.CurrentsA.Count);
        }

        yield return Inrush(run, meter);
        double[] running = run.Each(m => m.RunningCurrentA);
        if (running.Length == 0)
        {
            yield return Feature.Missing("current.running_a", NeverTurned);
            yield return Feature.Missing("current.noise_a", NeverTurned);
            yield return Feature.Missing("current.interruptions", NeverTurned);
            yield return Feature.Missing("current.tight_spot_ratio", NeverTurned);
            yield break;
        }

        (double typical, Contribution moves) = Contributions.Median(running, "scatter from move to move", resolution, "resolution of the current meter");
        yield return MeasuredFeature.Of("current.running_a", typical, [meter, moves], running.Length);
        yield return Noise(run.Each(m => m.CurrentNoiseA), resolution);
        int ofMeter = run.Features.Sum(m => m.MeterGaps);
        yield return ofMeter > 0
            ? Feature.Missing("current.interruptions", $"the current meter showed nothing {ofMeter} times while the unit kept its speed; check the meter and its wires")
            : Feature.Of("current.interruptions", run.Features.Sum(m => m.CurrentInterruptions), 0, running.Length);
        yield return TightSpot(angles, typical, moves, profile);
    }

    private static Feature Inrush(RunSoFar run, Contribution meter)
    {
        double rate = run.MeterRateHz ?? 0;
        if (rate < LeastInrushRateHz)
        {
            return Feature.Missing(
                "current.inrush_a",
                FormattableString.Invariant($"current was sampled {rate:0} times a second; an inrush of a few milliseconds needs {LeastInrushRateHz:0}"));
        }

        (double peak, Contribution scatter) = Contributions.Median(
            run.Each(m => m.PeakCurrentA), "scatter from move to move", meter.StandardUncertainty, "single peaks as uncertain as the meter");
        return MeasuredFeature.Of("current.inrush_a", peak, [meter, scatter], run.Features.Count);
    }

    private static Feature Noise(double[] noise, double resolution)
    {
        if (noise.Length == 0)
        {
            return Feature.Missing("current.noise_a", "no move was long enough to tell noise from course");
        }

        (double typical, Contribution scatter) = Contributions.Median(noise, "scatter from move to move", resolution, "resolution of the current meter");
        return MeasuredFeature.Of("current.noise_a", typical, [scatter], noise.Length);
    }

    private static Feature TightSpot(AngleCurrents angles, double running, Contribution moves, Profile profile)
    {
        (double Mean, double Uncertainty, int Samples)? worst = null;
        for (int first = 0; first < angles.Bins; first++)
        {
            if (AwayFromPorts(first, angles, profile)
                && angles.Over(first, SpotBins, LeastSpotSamples) is { } spot
                && (worst is null || spot.Mean > worst.Value.Mean))
            {
                worst = spot;
            }
        }

        return worst is { } w && running > 0
            ? MeasuredFeature.Of("current.tight_spot_ratio", w.Mean / running, Ratio(w, running, moves), w.Samples)
            : Feature.Missing("current.tight_spot_ratio", "no arc away from the ports was sampled often enough");
    }

    private static bool AwayFromPorts(int first, AngleCurrents angles, Profile profile)
    {
        Ring ring = profile.Ring;
        double centre = angles.FirstCount + ((first + (SpotBins / 2.0)) * angles.BinCounts);
        double reach = PortArc + (SpotBins / 2.0 * angles.BinCounts);
        return profile.Ports.All(p => Math.Abs(ring.Difference(centre, p.Count)) >= reach);
    }

    // One meter reads both currents, so its own uncertainty cancels, nearly.
    private static Contribution[] Ratio((double Mean, double Uncertainty, int Samples) spot, double running, Contribution moves) =>
    [
        new("scatter of readings over the arc", EvaluationType.A, ErrorDistribution.Normal, spot.Uncertainty)
        {
            Unit = "A", Sensitivity = 1 / running, DegreesOfFreedom = spot.Samples - 1,
        },
        moves with { Source = $"running current: {moves.Source}", Unit = "A", Sensitivity = -spot.Mean / (running * running) },
    ];
}

using Bench.Analysis.Extraction;
using Bench.Analysis.Statistics;
using Bench.Analysis.Supply;
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
        double meter = bench.Current.StandardUncertainty;
        double resolution = SupplyFeatures.Resolution(bench.Current);
        if (rest.CurrentsA.Count < LeastAtRest)
        {
            yield return Feature.Missing("current.off_a", "the meter gave fewer than three readings with the drive off");
        }
        else
        {
            (double off, double scatter) = Robust.MedianWithUncertainty([.. rest.CurrentsA], resolution);
            yield return Feature.Of("current.off_a", off, Together(meter, scatter), rest.CurrentsA.Count);
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

        (double typical, double u) = Robust.MedianWithUncertainty(running, resolution);
        yield return Feature.Of("current.running_a", typical, Together(meter, u), running.Length);
        yield return Noise(run.Each(m => m.CurrentNoiseA), resolution);
        int ofMeter = run.Features.Sum(m => m.MeterGaps);
        yield return ofMeter > 0
            ? Feature.Missing("current.interruptions", $"the current meter showed nothing {ofMeter} times while the unit kept its speed; check the meter and its wires")
            : Feature.Of("current.interruptions", run.Features.Sum(m => m.CurrentInterruptions), 0, running.Length);
        yield return TightSpot(angles, typical, u, profile);
    }

    private static Feature Inrush(RunSoFar run, double meter)
    {
        double rate = run.MeterRateHz ?? 0;
        if (rate < LeastInrushRateHz)
        {
            return Feature.Missing(
                "current.inrush_a",
                FormattableString.Invariant($"current was sampled {rate:0} times a second; an inrush of a few milliseconds needs {LeastInrushRateHz:0}"));
        }

        (double peak, double u) = Robust.MedianWithUncertainty(run.Each(m => m.PeakCurrentA), meter);
        return Feature.Of("current.inrush_a", peak, Together(meter, u), run.Features.Count);
    }

    private static Feature Noise(double[] noise, double resolution)
    {
        if (noise.Length == 0)
        {
            return Feature.Missing("current.noise_a", "no move was long enough to tell noise from course");
        }

        (double typical, double u) = Robust.MedianWithUncertainty(noise, resolution);
        return Feature.Of("current.noise_a", typical, u, noise.Length);
    }

    private static Feature TightSpot(AngleCurrents angles, double running, double runningU, Profile profile)
    {
        (double Ratio, double Uncertainty, int Samples)? worst = null;
        for (int first = 0; first < angles.Bins; first++)
        {
            if (AwayFromPorts(first, angles, profile)
                && angles.Over(first, SpotBins, LeastSpotSamples) is { } spot
                && (worst is null || spot.Mean / running > worst.Value.Ratio))
            {
                double ratio = spot.Mean / running;
                worst = (ratio, ratio * Together(spot.Uncertainty / spot.Mean, runningU / running), spot.Samples);
            }
        }

        return worst is { } w && running > 0
            ? Feature.Of("current.tight_spot_ratio", w.Ratio, w.Uncertainty, w.Samples)
            : Feature.Missing("current.tight_spot_ratio", "no arc away from the ports was sampled often enough");
    }

    private static bool AwayFromPorts(int first, AngleCurrents angles, Profile profile)
    {
        Ring ring = profile.Ring;
        double centre = angles.FirstCount + ((first + (SpotBins / 2.0)) * angles.BinCounts);
        double reach = PortArc + (SpotBins / 2.0 * angles.BinCounts);
        return profile.Ports.All(p => Math.Abs(ring.Difference(centre, p.Count)) >= reach);
    }

    private static double Together(double a, double b) => Math.Sqrt((a * a) + (b * b));
}

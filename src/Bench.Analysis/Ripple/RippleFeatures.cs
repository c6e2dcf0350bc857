using Bench.Analysis.Extraction;
using Bench.Analysis.Statistics;
using Bench.Analysis.Uncertainty;
using Bench.Model.Features;
using Bench.Model.Profiles;

namespace Bench.Analysis.Ripple;

/// <summary>The motor's own travel, by the ripple of its current, against the count, where the profile names them (C8).</summary>
internal static class RippleFeatures
{
    /// <summary>Motor's speed over the count's.</summary>
    public const string Ratio = "ripple.speed_ratio";

    /// <summary>Greatest difference of travel in a move.</summary>
    public const string Slip = "ripple.slip_counts";

    /// <summary>Least moves followed: a median of fewer says nothing of its scatter.</summary>
    private const int LeastMoves = 3;

    /// <summary>Whether a profile asks for either.</summary>
    public static bool AskedFor(Profile profile) => profile.Names(Ratio) || profile.Names(Slip);

    /// <summary>The features.</summary>
    public static IEnumerable<Feature> Of(RunSoFar run, Profile profile)
    {
        string[] names = [.. new[] { Ratio, Slip }.Where(profile.Names)];
        if (names.Length == 0)
        {
            return [];
        }

        if (Because(run, profile) is string because)
        {
            return names.Select(n => Feature.Missing(n, because));
        }

        // Both ends of the way lie between readings of one count.
        double ends = Math.Sqrt(2) * Contributions.Resolution(1);
        RippleTravel[] moves = [.. run.Ripples];
        double way = Robust.Median([.. moves.Select(m => m.ByCount)]);
        (double ratio, Contribution scatter) = Contributions.Median(
            [.. moves.Select(m => m.ByRipple / m.ByCount)], "scatter from move to move", ends / way, "resolution of the count over a move");
        double[] differences = [.. moves.Select(m => (m.ByRipple / ratio) - m.ByCount)];
        Contribution resolution = new("resolution of the count at both ends", EvaluationType.B, ErrorDistribution.Rectangular, ends);
        Contribution follows = new("scatter from move to move", EvaluationType.A, ErrorDistribution.Normal, Robust.Deviation(differences)) { FallsAsPower = 0 };
        return names.Select(n => n == Ratio
            ? MeasuredFeature.Of(Ratio, ratio, [scatter], moves.Length)
            : MeasuredFeature.Of(Slip, differences.Max(Math.Abs), [resolution, follows], moves.Length));
    }

    private static string? Because(RunSoFar run, Profile profile)
    {
        double[] speeds = [.. run.Each(m => m.SpeedCountsPerS).Select(Math.Abs)];
        double typical = speeds.Length > 0 ? Robust.Median(speeds) : profile.Electrical.RunningSpeedCountsPerS;
        return RippleTravel.FrequencyHz(profile, typical) is not double frequency
                ? "the profile does not give ripple_cycles_per_motor_revolution"
            : speeds.Length == 0 ? "the unit never turned steadily"
            : !(run.MeterRateHz >= RippleTravel.LeastRateHz(profile, typical))
                ? FormattableString.Invariant(
                    $"current was sampled {run.MeterRateHz ?? 0:0} times a second; ripple of {frequency:0} Hz needs {RippleTravel.LeastRateHz(profile, typical):0}")
            : run.Ripples.Count < LeastMoves
                ? $"ripple stood out of the current's noise in {run.Ripples.Count} moves; at least {LeastMoves} are needed"
            : null;
    }
}

using Bench.Analysis.Motion;
using Bench.Analysis.Statistics;
using Bench.Analysis.Uncertainty;
using Bench.Model.Features;
using Bench.Model.Instruments;
using Bench.Model.Moves;
using Bench.Model.Profiles;
using Bench.Model.Traces;

namespace Bench.Analysis.ShaftIndex;

/// <summary>The home of a counter, from passes of the index in a move whose counts are relative (C6).</summary>
/// <param name="ShiftCounts">Whole counts to add to what the counter is read as, the short way round.</param>
/// <param name="Edges">Standard uncertainty of its edges, which lie between samples, counts.</param>
/// <param name="Passes">Passes it rests on.</param>
public sealed record IndexHome(int ShiftCounts, double Edges, int Passes)
{
    private const string Name = "index.home_shift_counts";

    private static readonly Contribution Rounding =
        new("rounding to whole counts", EvaluationType.B, ErrorDistribution.Rectangular, Contributions.Resolution(1));

    /// <summary>Standard uncertainty, counts: edges, and rounding to whole counts.</summary>
    public double Uncertainty => Combination.StandardUncertainty(Budget);

    private Contribution[] Budget =>
        [new("edges of the index between samples", EvaluationType.B, ErrorDistribution.Rectangular, Edges), Rounding];

    /// <summary>
    /// Takes the home from a move. Only passes towards rising counts count: the profile says the arc's place for that
    /// direction, and play between encoder and shaft shifts it in the other.
    /// </summary>
    /// <param name="slice">The move's samples.</param>
    /// <param name="move">The move.</param>
    /// <param name="profile">The family, with the index's place.</param>
    /// <returns>The home; null when the index was not passed, both edges, in steady motion upwards, or passes name no place in common.</returns>
    public static IndexHome? Of(ReadOnlySpan<Sample> slice, Move move, Profile profile)
    {
        ArgumentNullException.ThrowIfNull(move);
        ArgumentNullException.ThrowIfNull(profile);
        MoveReadings readings = new();
        readings.Begin(slice.Length, move.DriveOnS, move.DriveOffS, profile.Feedback != FeedbackKind.Switches);
        readings.Add(slice);
        List<IndexPass> passes = IndexPass.In(new MoveCourse(readings, move, profile), readings.Meters);
        if (profile.IndexCount is not double place || move.Direction != DriveDirection.Up || passes.Count == 0)
        {
            return null;
        }

        // A circular mean, so that shifts either side of half a ring have one as shifts either side of 0 do.
        double[] shifts = [.. passes.Select(p => place - p.Middle)];
        if (CircularStatistics.Of(shifts, profile.Ring.Counts).Mean is not double mean)
        {
            return null;
        }

        double variance = passes.Sum(p => p.Uncertainty * p.Uncertainty) / ((double)passes.Count * passes.Count);
        return new IndexHome((int)Math.Round(profile.Ring.Difference(mean, 0.0)), Math.Sqrt(variance), passes.Count);
    }

    /// <summary>What a run says of its home.</summary>
    internal static Feature Feature(IndexHome? home, Profile profile, bool hasIndex) =>
        home is not null ? MeasuredFeature.Of(Name, home.ShiftCounts, home.Budget, home.Passes)
        : Model.Features.Feature.Missing(
            Name,
            !profile.HomesByIndex ? "this family's home is not taken from the index"
            : !hasIndex ? "the bench has no index input wired"
            : "the index was not passed while the unit was turned for it");
}

using Bench.Analysis.Statistics;
using Bench.Analysis.Uncertainty;
using Bench.Model.BenchFiles;
using Bench.Model.Features;
using Bench.Model.Moves;
using Bench.Model.Profiles;
using Bench.Model.Traces;

namespace Bench.Analysis.Motion;

/// <summary>
/// The move with the valve taken off. It says of the motor and its gear what no move with the valve can, and nothing of
/// the unit as it came in, so it stays out of every other feature.
/// </summary>
internal static class UncoupledMove
{
    /// <summary>The last part of the drive's time that is looked at, seconds: inrush is over, and a motor that can turn does.</summary>
    private const double WindowS = 0.3;

    /// <summary>The features of a run in which no such move was made.</summary>
    public static IEnumerable<Feature> None { get; } = Missing("no move was made with the valve off");

    /// <summary>What the move says.</summary>
    /// <param name="slice">Its samples.</param>
    /// <param name="move">The move.</param>
    /// <param name="profile">The profile.</param>
    /// <param name="meter">The current meter.</param>
    public static IEnumerable<Feature> Of(ReadOnlySpan<Sample> slice, Move move, Profile profile, MeterDescription meter)
    {
        MeterRows rows = Rows(slice, move);
        double[] currents = [.. rows.Between(Math.Max(move.DriveOnS, move.DriveOffS - WindowS), move.DriveOffS).Currents];
        StillMove still = StillMove.Of(move, rows, profile.Electrical);
        string? because = move.End switch
        {
            MoveEnd.FeedbackLost => "the feedback fell silent in the move without the valve",
            MoveEnd.Interrupted => "the move without the valve was interrupted",
            MoveEnd.NoCurrent => "no current flowed in the move without the valve",
            _ when currents.Length == 0 => "no current was read in the move without the valve",
            MoveEnd.OverTime when Robust.Median(currents) > (profile.Electrical.StallCurrentA + profile.Electrical.RunningCurrentA) / 2 =>
                "the move without the valve ended before the count had stood still for long enough",
            _ => null,
        };
        if (because is not null)
        {
            return Missing(because);
        }

        (double median, Contribution scatter) = Contributions.Median(
            currents, "scatter of readings", meter.StandardUncertainty, "single readings as uncertain as the meter");
        return
        [
            Feature.Of(UncoupledFeatures.Locked, still.Kind == StillKind.Locked ? 1 : 0, 0, 1),
            Feature.Of(UncoupledFeatures.Free, still.Kind == StillKind.None ? 1 : 0, 0, 1),
            MeasuredFeature.Of(UncoupledFeatures.Current, median, [Contributions.Of(meter, "current meter"), scatter], currents.Length),
        ];
    }

    /// <summary>The move in the run's table: as of its stage, and no more.</summary>
    public static MoveFeatures Features(ReadOnlySpan<Sample> slice, Move move)
    {
        MeterRows rows = Rows(slice, move);
        return new MoveFeatures
        {
            Number = move.Number,
            Stage = move.Stage,
            ToPort = move.ToPort,
            Direction = move.Direction,
            End = move.End,
            OnS = Math.Max(0, move.DriveOffS - move.DriveOnS),
            PeakCurrentA = rows.Length > 0 ? Describe.Greatest(rows.Currents) : null,
            Counts = false,
            Passed = false,
        };
    }

    private static MeterRows Rows(ReadOnlySpan<Sample> slice, Move move)
    {
        MoveReadings readings = new();
        readings.Begin(slice.Length, move.DriveOnS, move.DriveOffS, counts: false);
        readings.Add(slice);
        return readings.Meters;
    }

    private static Feature[] Missing(string because) =>
    [
        Feature.Missing(UncoupledFeatures.Locked, because),
        Feature.Missing(UncoupledFeatures.Free, because),
        Feature.Missing(UncoupledFeatures.Current, because),
    ];
}

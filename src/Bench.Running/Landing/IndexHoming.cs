using System.Globalization;
using Bench.Analysis.ShaftIndex;
using Bench.Model.Instruments;
using Bench.Model.Moves;
using Bench.Model.Profiles;
using Bench.Model.Runs;
using Bench.Model.Traces;

namespace Bench.Running.Landing;

/// <summary>Gives a counter its home: the unit is turned upwards past the index, and the count of the ring follows from where that was.</summary>
internal sealed class IndexHoming
{
    /// <summary>Revolutions that surely bring both edges in steady motion, wherever the unit begins.</summary>
    public const int Revolutions = 2;

    private readonly Profile _profile;
    private readonly IRelativeFeedback _feedback;

    private IndexHoming(Profile profile, IRelativeFeedback feedback, bool hasIndex)
    {
        _profile = profile;
        _feedback = feedback;
        HasIndex = hasIndex;
    }

    /// <summary>Whether the bench has the input wired.</summary>
    public bool HasIndex { get; }

    /// <summary>The homing of a unit; null for one that knows its zero, or whose profile takes it from the first reading.</summary>
    public static IndexHoming? For(Profile profile, IFeedback feedback, BenchSnapshot bench) =>
        profile.HomesByIndex && feedback.Relative is { } relative ? new IndexHoming(profile, relative, bench.HasIndex) : null;

    /// <summary>Takes the home from a move, the unit being at rest again.</summary>
    /// <returns>What was taken, in plain words; null when the index was not passed.</returns>
    public string? Take(Trace trace, Move move)
    {
        if (IndexHome.Of(trace.Slice(move.FirstSample, move.SampleCount), move, _profile) is not { } home)
        {
            return null;
        }

        _feedback.MoveHome(home.ShiftCounts);
        return string.Create(
            CultureInfo.InvariantCulture,
            $"home taken from the index: the counter's counts move by {home.ShiftCounts:+0;-0;0}, standard uncertainty {home.Uncertainty:0.0} ({home.Passes} passes)");
    }
}

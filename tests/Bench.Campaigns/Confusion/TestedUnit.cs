using Bench.Model.Runs;
using Bench.Simulation.Mismatch;

namespace Bench.Campaigns.Confusion;

/// <summary>One simulated unit and what the bench said of it.</summary>
/// <param name="Seed">Its seed; the same seed gives the same unit and run.</param>
/// <param name="Family">Id of its family.</param>
/// <param name="Condition">Id of its condition.</param>
/// <param name="Link">The bench's link, e.g. <c>rtu-115200</c>.</param>
/// <param name="Truth">What is right.</param>
/// <param name="Variations">How it and its bench depart from the ordinary model.</param>
/// <param name="Reach">What its bench could do to it.</param>
/// <param name="Record">The run's record.</param>
public sealed record TestedUnit(ulong Seed, string Family, string Condition, string Link, Truth Truth, IReadOnlyList<Variation> Variations, Reach Reach, RunRecord Record)
{
    /// <summary>Position readings per second that the bench held; null where it turned nothing.</summary>
    public double? PositionRateHz { get; init; }

    /// <summary>Whether what would show its condition was within the bench's reach.</summary>
    public bool IsWithinReach => Reach.Has(Condition, Record.Start.Profile, Record.Start.Return.Symptom);

    /// <summary>Time of the test, seconds.</summary>
    public double TestS => (Record.EndedAt - Record.Start.StartedAt).TotalSeconds;

    /// <summary>What was said in one word: a disposition, <c>held</c> or <c>aborted</c>.</summary>
    public string Said => Record.Judgement?.Disposition is { } disposition ? disposition.ToString() : Record.Outcome.ToString();

    /// <summary>Whether the disposition is right; a bad bench is right when it judges nobody.</summary>
    public bool Right => Record.Judgement?.Disposition == Truth.Disposition;

    /// <summary>Whether the unit's condition is among the first causes.</summary>
    /// <param name="first">How many of them.</param>
    public bool NamesCause(int first) =>
        Record.Judgement is { } judgement && judgement.Causes.Take(first).Any(c => Truth.Causes.Contains(c.Id));
}

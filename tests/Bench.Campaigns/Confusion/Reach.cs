using Bench.Model.Moves;
using Bench.Model.Profiles;
using Bench.Model.Returns;

namespace Bench.Campaigns.Confusion;

/// <summary>What a bench can do to a unit: whether it can set its supply, and whether a person is there to move the connector.</summary>
/// <param name="SetsSupply">Whether the supply can be set.</param>
/// <param name="IsAttended">Whether a person is there.</param>
public sealed record Reach(bool SetsSupply, bool IsAttended)
{
    /// <summary>
    /// The stage that brings out a condition which hardly shows by itself; null for any other condition. A brush that hangs at
    /// one stop in thirty shows in as many moves or starts, whichever they are.
    /// </summary>
    /// <param name="condition">Id of the condition.</param>
    public static StageKind? StageFor(string condition) => condition switch
    {
        "sticking-seal" => StageKind.LowSupply,
        "weak-regulator" => StageKind.HighSupply,
        "strained-cable" => StageKind.Connector,
        "warm-open-winding" => StageKind.Warm,
        "hanging-brush" => StageKind.Starts,
        _ => null,
    };

    /// <summary>Whether the bench can run a stage that provokes.</summary>
    /// <param name="kind">Its kind.</param>
    public bool CanRun(StageKind kind) => kind switch
    {
        StageKind.LowSupply or StageKind.HighSupply => SetsSupply,
        StageKind.Connector => IsAttended,
        _ => true,
    };

    /// <summary>Whether what would show a condition is within reach: one that must be provoked is, where its stage is in the routine and can be run.</summary>
    /// <param name="condition">Id of the condition.</param>
    /// <param name="profile">The profile.</param>
    /// <param name="symptom">What the field reported; only a fault that comes and goes is provoked.</param>
    public bool Has(string condition, Profile profile, Symptom symptom) =>
        StageFor(condition) is not { } kind || (symptom == Symptom.Intermittent && CanRun(kind) && profile.Routine.Any(s => s.Kind == kind));

    /// <summary>Stages that a routine of fixed length runs on a unit, of those that provoke.</summary>
    /// <param name="profile">The profile.</param>
    /// <param name="symptom">What the field reported.</param>
    public IEnumerable<Stage> Provoking(Profile profile, Symptom symptom) =>
        symptom == Symptom.Intermittent ? profile.Routine.Where(s => s.Kind.Provokes() && CanRun(s.Kind)) : [];
}

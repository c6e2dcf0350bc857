using Bench.Analysis.Judging;
using Bench.Analysis.Sequential;
using Bench.Model.Features;
using Bench.Model.Judging;
using Bench.Model.Moves;
using Bench.Model.Profiles;
using Bench.Model.Returns;
using Bench.Model.Serialization;

namespace Bench.Analysis.Provoking;

/// <summary>The stage that provokes which is worth running next (C13).</summary>
/// <param name="Stage">The stage.</param>
/// <param name="Bits">Expected reduction of the entropy of the causes, bits.</param>
/// <param name="Minutes">Expected length of a unit that is still good, minutes.</param>
/// <remarks>
/// Mutual information between cause and outcome of the stage (Shannon 1948): H(causes) - E[H(causes | outcome)], the
/// outcome being whether the stage's feature fails its limit, with the probability the profile's modes name. Divided by
/// the time that the stage's sequential test is expected to take.
/// </remarks>
public sealed record StageChoice(Stage Stage, double Bits, double Minutes)
{
    /// <summary>A stage that is expected to tell less is not worth its time, bits: where an intermittent fault was reported, and where none was.</summary>
    private const double LeastBits = 0.01;
    private const double LeastBitsUnasked = 0.05;

    /// <summary>Switching, run-up and reading of a move besides its travel and settling, seconds. Common practice, no source.</summary>
    private const double OverheadS = 0.3;

    /// <summary>Mean travel of a short start, share of the ring.</summary>
    private const double StartShare = 0.21;

    /// <summary>Time a person takes to read the cautions, come near and step back, seconds. Common practice, no source.</summary>
    private const double HandsS = 30;

    /// <summary>Whether it was chosen to decide a resistance, not to tell causes apart.</summary>
    public bool DecidesResistance { get; private init; }

    /// <summary>What is chosen and why, for the record.</summary>
    public string Words => DecidesResistance
        ? $"stage {BenchJson.Word(Stage.Kind)} is next: moves at another voltage tell the winding's resistance from its back-EMF, and it lies too close to its limit to decide"
        : FormattableString.Invariant(
        $"stage {BenchJson.Word(Stage.Kind)} is next: it promises {Bits:0.000} bit on the cause in about {Minutes:0.0} min, {Bits / Minutes:0.000} bit a minute, the most of those left");

    /// <summary>The one with most information a minute; null when none is worth its time.</summary>
    /// <param name="left">Stages that provoke and have not been run.</param>
    /// <param name="soFar">What the run has shown.</param>
    /// <param name="profile">The profile.</param>
    /// <param name="symptom">What the field reported.</param>
    /// <param name="because">Why there is none, in plain words; empty when there is one.</param>
    public static StageChoice? Next(IEnumerable<Stage> left, RunFeatures soFar, Profile profile, Symptom symptom, out string because)
    {
        ArgumentNullException.ThrowIfNull(left);
        ArgumentNullException.ThrowIfNull(profile);
        because = "";
        Judgement judgement = Judge.Decide(soFar, profile, symptom);
        if (ForResistance(left, judgement, profile) is { } second)
        {
            return second;
        }

        bool clear = judgement.Causes is [{ Probability: >= Judge.CauseIsClear }, ..];
        bool faultLeads = judgement.Causes is [{ Id: not Causes.Healthy }, ..];

        // A constant fault that is not there needs no provoking, and a cause that is clear none either.
        if (symptom == Symptom.Constant ? clear || !faultLeads : clear && faultLeads)
        {
            because = clear && faultLeads
                ? $"the cause is clear without it: {judgement.Causes[0].Name}"
                : "a constant fault was reported and none has shown, which needs no provoking";
            return null;
        }

        double least = symptom == Symptom.Intermittent ? LeastBits : LeastBitsUnasked;
        StageChoice? choice = left.Select(s => new StageChoice(s, Information(s.Kind, judgement.Causes, profile), Length(s, profile)))
            .Where(c => c.Bits >= least && profile.Limits.Any(l => l.Feature == ProvokedFeatures.Of(c.Stage.Kind)))
            .MaxBy(c => c.Bits / c.Minutes);
        because = choice is null ? FormattableString.Invariant($"it would tell next to nothing more about the cause (less than {least:0.00} bit)") : "";
        return choice;
    }

    // A resistance that hangs on the type's torque constant is decided by no further move, but by moves at another voltage (C9).
    private static StageChoice? ForResistance(IEnumerable<Stage> left, Judgement judgement, Profile profile) =>
        judgement.Findings.Any(f => f is { Feature.Name: "winding.resistance_ohm", Decision: FindingDecision.Undecided } && Findings.LiesOutside(f))
        && left.FirstOrDefault(s => s.Kind is StageKind.LowSupply or StageKind.HighSupply) is { } stage
            ? new StageChoice(stage, Information(stage.Kind, judgement.Causes, profile), Length(stage, profile)) { DecidesResistance = true }
            : null;

    /// <summary>Expected information of a stage on the cause, bits.</summary>
    /// <param name="kind">A kind that provokes.</param>
    /// <param name="causes">Posterior so far; each is a fault mode of the profile.</param>
    /// <param name="profile">The profile.</param>
    public static double Information(StageKind kind, IReadOnlyList<Cause> causes, Profile profile)
    {
        ArgumentNullException.ThrowIfNull(causes);
        ArgumentNullException.ThrowIfNull(profile);
        string feature = ProvokedFeatures.Of(kind);
        (double P, double Show)[] modes = [.. causes.Select(c =>
            (c.Probability, profile.FaultModes.First(m => m.Id == c.Id).Shows.GetValueOrDefault(feature, Profile.BackgroundShow)))];
        double show = modes.Sum(m => m.P * m.Show);

        // I(cause; outcome) = H(outcome) - H(outcome | cause), the outcome being one of two.
        return Math.Max(0, Binary(show) - modes.Sum(m => m.P * Binary(m.Show)));
    }

    private static double Binary(double p) => p is <= 0 or >= 1 ? 0 : -(p * Math.Log2(p)) - ((1 - p) * Math.Log2(1 - p));

    private static double Length(Stage stage, Profile profile)
    {
        Demonstration plan = stage.Plan(profile.Demonstration);
        if (stage.Kind == StageKind.Connector)
        {
            return (HandsS + Math.Min(stage.MostS, OperatingCharacteristic.At(plan, plan.P0).ExpectedMoves * ConnectorWatch.TrialS)) / 60;
        }

        double heatS = stage.Kind == StageKind.Warm ? stage.MostS : 0;
        double share = stage.Kind == StageKind.Starts && profile.Feedback != FeedbackKind.Switches ? StartShare : 1 - (1.0 / profile.Ports.Count);
        double onS = share * profile.Ring.Counts / profile.Electrical.RunningSpeedCountsPerS;
        double moveS = Math.Max(onS + OverheadS + (stage.SettleMs / 1000), onS / profile.Safety.MostDuty);
        return (heatS + Math.Min(stage.MostS, OperatingCharacteristic.At(plan, plan.P0).ExpectedMoves * moveS)) / 60;
    }
}

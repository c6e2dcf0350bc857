using Bench.Model.Features;
using Bench.Model.Judging;
using Bench.Model.Moves;
using Bench.Model.Profiles;
using Bench.Model.Returns;
using Bench.Model.Runs;
using Bench.Model.Serialization;

namespace Bench.Reporting.Text;

/// <summary>What the words of a record say in a sentence.</summary>
internal static class Wording
{
    public static string Of(ErrorDistribution distribution) => BenchJson.Word(distribution);

    public static string Of(SensorState state) => BenchJson.Word(state);

    public static string Of(SequentialState state) => state switch
    {
        SequentialState.Shown => "shown to fail seldom enough",
        SequentialState.Refuted => "shown to fail too often",
        SequentialState.Truncated => "ended at the most moves without a decision",
        _ => "more moves are needed",
    };

    public static string Of(MoveEnd end) => end switch
    {
        MoveEnd.Landed => "landed",
        MoveEnd.Stalled => "ended at stall current with the count still",
        MoveEnd.NoCurrent => "ended without current",
        MoveEnd.CountStill => "ended with the count still under running current",
        MoveEnd.FeedbackLost => "ended with the feedback lost",
        MoveEnd.OverTime => "did not arrive in the time allowed",
        _ => "was interrupted",
    };

    public static string Of(ClaimOutcome claim) => claim switch
    {
        ClaimOutcome.Confirmed => "the claimed feedback fault was found",
        ClaimOutcome.NotReproduced => "no fault was found in a completed demonstration",
        ClaimOutcome.OtherFault => "another fault than the claimed one was found",
        _ => "the evidence does not tell",
    };

    public static string Of(AbortReason reason) => reason switch
    {
        AbortReason.EmergencyStop => "the emergency stop was pressed",
        AbortReason.OverCurrent => "the current rose above the limit",
        AbortReason.OutputNotConfirmed => "an output could not be confirmed off",
        AbortReason.BenchFault => "a device or link of the bench failed",
        AbortReason.Cancelled => "a person stopped it",
        AbortReason.NotConfirmed => "cautions or wiring were not confirmed",
        AbortReason.InspectionForbids => "the arrival inspection forbids energising the unit",
        AbortReason.HostDied => "the program died during the run",
        _ => "a defect of this program",
    };

    public static string Of(Symptom symptom) => symptom switch
    {
        Symptom.Constant => "feedback fault, constant",
        _ => "feedback fault, intermittent",
    };

    /// <summary>A limit as an interval, e.g. <c>0.1 to 0.3 A</c>.</summary>
    public static string Of(Limit limit, string unit) => (limit.Lower, limit.Upper) switch
    {
        ({ } lower, { } upper) => $"{Quantity.Number(lower)} to {Quantity.Of(upper, unit)}",
        ({ } lower, null) => $"≥ {Quantity.Of(lower, unit)}",
        (null, { } upper) => $"≤ {Quantity.Of(upper, unit)}",
        _ => "none",
    };

    /// <summary>Title of a feature; its name where this program does not know it.</summary>
    public static string Title(string feature) => FeatureCatalog.Knows(feature) ? FeatureCatalog.Get(feature).Title : feature;

    /// <summary>Title of a feature with its subject.</summary>
    public static string Title(Feature feature)
    {
        string title = Title(feature.Name);
        return feature.Subject is null ? title : $"{title}, {feature.Subject}";
    }
}

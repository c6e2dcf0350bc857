using Bench.Model.Comparisons;
using Bench.Model.Judging;
using Bench.Model.Runs;
using Bench.Model.Serialization;

namespace Bench.Reporting.Text;

/// <summary>A word with a shape that stands for it, so that neither colour nor print quality can take the meaning away.</summary>
/// <param name="Shape">One character.</param>
/// <param name="Word">The word.</param>
/// <param name="Tone">How loud it is shown: <c>good</c>, <c>work</c>, <c>bad</c>, <c>open</c>.</param>
public sealed record Mark(string Shape, string Word, string Tone)
{
    /// <summary>The mark of how a run came out: its disposition where there is one.</summary>
    public static Mark Of(RunRecord record) => record.Outcome switch
    {
        RunOutcome.Aborted => new("▲", "aborted", "bad"),
        RunOutcome.Held => new("○", "held", "open"),
        _ => record.Judgement?.Disposition switch
        {
            Disposition.Reusable => new("●", "reusable", "good"),
            Disposition.Repairable => new("◆", "repairable", "work"),
            Disposition.Scrap => new("■", "scrap", "bad"),
            _ => new("○", "held", "open"),
        },
    };

    /// <summary>The mark of what two runs say of a unit.</summary>
    public static Mark Of(ComparisonOutcome outcome) => outcome switch
    {
        ComparisonOutcome.Worse => new("▼", BenchJson.Word(outcome), "bad"),
        ComparisonOutcome.Mixed => new("◈", BenchJson.Word(outcome), "work"),
        ComparisonOutcome.Better => new("△", BenchJson.Word(outcome), "good"),
        ComparisonOutcome.ChangedWithinLimits => new("≠", BenchJson.Word(outcome), "work"),
        ComparisonOutcome.NoDifferenceShown => new("=", BenchJson.Word(outcome), "open"),
        _ => new("–", BenchJson.Word(outcome), "open"),
    };

    /// <summary>The mark of a feature's difference.</summary>
    public static Mark Of(DifferenceOutcome outcome) => outcome switch
    {
        DifferenceOutcome.Differs => new("≠", BenchJson.Word(outcome), "work"),
        DifferenceOutcome.Doubtful => new("≈", BenchJson.Word(outcome), "open"),
        DifferenceOutcome.NotShown => new("=", BenchJson.Word(outcome), "open"),
        DifferenceOutcome.NotTested => new("·", BenchJson.Word(outcome), "open"),
        _ => new("–", BenchJson.Word(outcome), "open"),
    };

    /// <summary>The mark of a finding's decision.</summary>
    public static Mark Of(FindingDecision decision) => decision switch
    {
        FindingDecision.Conforms => new("●", BenchJson.Word(decision), "good"),
        FindingDecision.DoesNotConform => new("■", BenchJson.Word(decision), "bad"),
        FindingDecision.Undecided => new("◇", BenchJson.Word(decision), "open"),
        _ => new("–", BenchJson.Word(decision), "open"),
    };
}

using Bench.Model.Comparisons;
using Bench.Reporting.Html;
using Bench.Reporting.Text;

namespace Bench.Reporting.Comparison;

/// <summary>What a reader must find first: what differs besides the unit, then what was found, worst first.</summary>
internal static class OutcomeSection
{
    public static SafeHtml Of(RunComparison comparison)
    {
        Mark mark = Mark.Of(comparison.Outcome);
        IReadOnlyList<string> conditions = ComparisonConditions.Differing(comparison);
        return Markup.Of(
            $"""
            <section class="verdict {mark.Tone} alone" aria-labelledby="outcome">
            <div>
            <h2 id="outcome" class="unseen">Outcome</h2>
            <p class="word">{Shape(comparison.Outcome)}<span>{mark.Word.ToUpperInvariant().Replace('-', ' ')}</span></p>
            <p class="claim">B against A: {ComparisonSentences.Of(comparison.Outcome)}.</p>
            {(conditions.Count == 0 ? SafeHtml.None : Markup.Of($"<h3>First: what else differs</h3>\n<ul class=\"reasons\">\n{Items(conditions)}</ul>"))}
            <h3>What was found</h3>
            <ol class="reasons">
            {Items(ComparisonSentences.Of(comparison))}</ol>
            </div>
            </section>
            """);
    }

    private static SafeHtml Items(IEnumerable<string> sentences) => Markup.Join(sentences.Select(s => Markup.Of($"<li><bdi>{s}</bdi></li>\n")));

    private static SafeHtml Shape(ComparisonOutcome outcome) => outcome switch
    {
        ComparisonOutcome.Worse => Markup.Of($"""<svg viewBox="0 0 40 40" aria-hidden="true"><path fill="currentColor" d="M1 5H39L20 37Z"/></svg>"""),
        ComparisonOutcome.Better => Markup.Of($"""<svg viewBox="0 0 40 40" aria-hidden="true"><path fill="none" stroke="currentColor" stroke-width="5" d="M20 7L35 34H5Z"/></svg>"""),
        ComparisonOutcome.Mixed => Markup.Of($"""<svg viewBox="0 0 40 40" aria-hidden="true"><path fill="currentColor" d="M20 1L39 20L20 39L1 20ZM20 8L32 20L20 32L8 20ZM20 14L26 20L20 26L14 20Z"/></svg>"""),
        ComparisonOutcome.ChangedWithinLimits => Markup.Of($"""<svg viewBox="0 0 40 40" aria-hidden="true"><path fill="none" stroke="currentColor" stroke-width="5" d="M4 14H36M4 26H36M28 4L12 36"/></svg>"""),
        ComparisonOutcome.NoDifferenceShown => Markup.Of($"""<svg viewBox="0 0 40 40" aria-hidden="true"><path fill="none" stroke="currentColor" stroke-width="5" d="M4 14H36M4 26H36"/></svg>"""),
        _ => Markup.Of($"""<svg viewBox="0 0 40 40" aria-hidden="true"><path fill="none" stroke="currentColor" stroke-width="5" d="M4 20H36"/></svg>"""),
    };
}

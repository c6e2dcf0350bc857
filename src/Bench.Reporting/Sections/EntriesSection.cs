using Bench.Model.Entries;
using Bench.Model.Runs;
using Bench.Reporting.Html;
using Bench.Reporting.Text;

namespace Bench.Reporting.Sections;

/// <summary>What was said of the run after it was sealed: corrections, later judgements, sign-offs. Nothing where nothing was.</summary>
internal static class EntriesSection
{
    public static SafeHtml Of(SealedRun run) => run.Entries.Count == 0
        ? Markup.Of($"")
        : Markup.Of(
            $"""
            <section aria-labelledby="entries">
            <h2 id="entries">Said later</h2>
            <p class="quiet">The sealed record above stays as it was; these entries stand beside it, in order.</p>
            <ol>
            {Markup.Join(run.Entries.Select(e => Item(run.Entries, e)))}</ol>
            </section>
            """);

    private static SafeHtml Item(IReadOnlyList<SealedEntry> all, SealedEntry entry) => Markup.Of(
        $"<li><bdi>{EntryWording.Of(entry.Entry)}</bdi> {(entry.Entry is SignOff ? EntryWording.Stale(all, entry) : null)}<br/><code>SHA-256 {entry.Hash}</code></li>\n");
}

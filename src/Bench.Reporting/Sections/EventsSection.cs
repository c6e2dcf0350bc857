using Bench.Model.Runs;
using Bench.Model.Serialization;
using Bench.Reporting.Html;
using Bench.Reporting.Text;

namespace Bench.Reporting.Sections;

/// <summary>
/// What happened, in order. Drive commands that went as commanded are told by their number: of a run of two hundred moves they
/// would fill ten pages that nobody reads, and the record keeps each.
/// </summary>
internal static class EventsSection
{
    public static SafeHtml Of(RunRecord record)
    {
        RunEvent[] told = [.. record.Events.Where((e, i) => !WentAsCommanded(e) || i == record.Events.Count - 1)];
        int left = record.Events.Count - told.Length;
        return Markup.Of(
            $"""
            <section aria-labelledby="events">
            <h2 id="events">Event log</h2>
            <div class="table"><table class="log">
            <caption>{Quantity.Count(told.Length, "event", "events")}; time in seconds from the start of the run.{(left == 0 ? string.Empty : $" {Quantity.Count(left, "drive command or answer", "drive commands and answers")}, each as commanded, left out here: the record holds them (bench export --format json).")}</caption>
            <thead><tr><th scope="col" class="number">Time (s)</th><th scope="col">Kind</th><th scope="col">Event</th></tr></thead>
            <tbody>
            {Markup.Join(told.Select(e => Markup.Of($"<tr><td class=\"number\">{Quantity.Fixed(e.TimeS, 3)}</td><td>{(e.Kind == RunEventKind.Fault ? "▲ " : string.Empty)}{BenchJson.Word(e.Kind)}</td><td>{e.Text}</td></tr>\n")))}</tbody>
            </table></div>
            </section>
            """);
    }

    private static bool WentAsCommanded(RunEvent e) => e.Text.StartsWith("drive", StringComparison.Ordinal) && e.Kind switch
    {
        RunEventKind.OutputCommand => true,
        RunEventKind.OutputResult => e.Text.EndsWith(": acknowledged", StringComparison.Ordinal) || e.Text.EndsWith(": off, read back", StringComparison.Ordinal),
        _ => false,
    };
}

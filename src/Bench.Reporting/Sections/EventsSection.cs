using Bench.Model.Runs;
using Bench.Model.Serialization;
using Bench.Reporting.Html;
using Bench.Reporting.Text;

namespace Bench.Reporting.Sections;

/// <summary>Everything that happened, in order.</summary>
internal static class EventsSection
{
    public static SafeHtml Of(RunRecord record) => Markup.Of(
        $"""
        <section aria-labelledby="events">
        <h2 id="events">Event log</h2>
        <div class="table"><table class="log">
        <caption>{Quantity.Count(record.Events.Count, "event", "events")}; time in seconds from the start of the run.</caption>
        <thead><tr><th scope="col" class="number">Time (s)</th><th scope="col">Kind</th><th scope="col">Event</th></tr></thead>
        <tbody>
        {Markup.Join(record.Events.Select(e => Markup.Of($"<tr><td class=\"number\">{Quantity.Fixed(e.TimeS, 3)}</td><td>{(e.Kind == RunEventKind.Fault ? "▲ " : string.Empty)}{BenchJson.Word(e.Kind)}</td><td>{e.Text}</td></tr>\n")))}</tbody>
        </table></div>
        </section>
        """);
}

using Bench.Model.Runs;
using Bench.Reporting.Html;

namespace Bench.Reporting.Sections;

/// <summary>Head of the page and its contents.</summary>
internal static class Masthead
{
    public static SafeHtml Of(SealedRun run) => Markup.Of(
        $"""
        <header>
        <h1>Evidence packet: <bdi>{run.Return.Serial}</bdi></h1>
        <p><bdi>{run.Record.Start.Profile.Title}</bdi>, {(run.Record.IsInspectionOnly ? "inspected" : "tested")} {Moment.Of(run.Record.Start.StartedAt)}</p>
        </header>
        {Simulated(run.Record)}
        """);

    /// <summary>Links to the sections there are.</summary>
    public static SafeHtml Contents(RunRecord record)
    {
        (string Id, string Title, bool There)[] sections =
        [
            ("facts", "Unit, bench, profile, run", true),
            (InspectionSection.Id, "Arrival inspection", InspectionSection.IsThere(record)),
            ("findings", "Findings", record.Judgement is not null),
            ("demonstration-words", "Demonstration", record.Features is not null),
            (ProvocationSection.Id, "Provocation", ProvocationSection.IsThere(record)),
            ("causes", "Causes", record.Judgement is { Causes.Count: > 0 }),
            ("work", "Order of work", record.Judgement is { Work.Count: > 0 }),
            ("plots", "Plots", true),
            ("cautions", "Cautions", true),
            ("integrity", "Integrity", true),
            ("links", "Links and errors", record.Features is not null),
            ("events", "Event log", true),
        ];
        return Markup.Of(
            $"""
            <nav aria-label="Contents"><ul>
            {Markup.Join(sections.Where(s => s.There).Select(s => Markup.Of($"<li><a href=\"#{s.Id}\">{s.Title}</a></li>\n")))}</ul></nav>
            """);
    }

    private static SafeHtml Simulated(RunRecord record) =>
        !record.Start.Simulated
            ? SafeHtml.None
            : Markup.Of(
                $"""
                <aside class="simulated" aria-label="Simulated"><strong>SIMULATED.</strong> Unit, bench and time are simulated: this is no evidence about a real unit.{Condition(record)}</aside>
                """);

    private static SafeHtml Condition(RunRecord record) =>
        record.Start.SimulatedCondition is null
            ? SafeHtml.None
            : Markup.Of($" The simulator was given the condition <bdi>{record.Start.SimulatedCondition}</bdi>; neither analysis nor judge was told.");
}

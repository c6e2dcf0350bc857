using Bench.Model.Features;
using Bench.Model.Profiles;
using Bench.Model.Returns;
using Bench.Model.Runs;
using Bench.Reporting.Html;
using Bench.Reporting.Text;

namespace Bench.Reporting.Sections;

/// <summary>What was seen on arrival, and what came with the unit; nothing where no intake was made.</summary>
internal static class InspectionSection
{
    /// <summary>Id of the section.</summary>
    public const string Id = "inspection";

    /// <summary>Whether there is anything to show.</summary>
    public static bool IsThere(RunRecord record) => record.Start.Return.Attachments.Count > 0 || WasLookedAt(record);

    /// <summary>The section.</summary>
    /// <param name="run">The run.</param>
    /// <param name="attached">Gives the content of a photo; null where it is gone.</param>
    public static SafeHtml Of(SealedRun run, Func<Attachment, byte[]?> attached) => !IsThere(run.Record) ? SafeHtml.None : Markup.Of(
        $"""
        <section aria-labelledby="{Id}">
        <h2 id="{Id}">Arrival inspection</h2>
        {(WasLookedAt(run.Record) ? Answers(run) : SafeHtml.None)}
        {Attachments(run.Record.Start.Return, attached)}
        </section>
        """);

    // A required item that nobody looked at is a finding, too.
    private static bool WasLookedAt(RunRecord record) =>
        record.Start.Return.Inspection.Count > 0 || record.Judgement?.Findings.Any(f => InspectionFeatures.Item(f.Feature.Name) is not null) == true;

    private static SafeHtml Answers(SealedRun run) => Markup.Of(
        $"""
        <div class="table"><table class="cards">
        <caption>Looked at by a person before the unit was connected to anything.</caption>
        <thead><tr><th scope="col">Question</th><th scope="col">Answer</th><th scope="col">On a sound unit</th></tr></thead>
        <tbody>
        {Markup.Join(run.Record.Start.Profile.Inspection.Select(i => Row(i, run)))}</tbody>
        </table></div>
        """);

    private static SafeHtml Row(InspectionItem item, SealedRun run) => Markup.Of(
        $"<tr><th scope=\"row\"><bdi>{item.Question}</bdi></th><td data-name=\"Answer\"><bdi>{Answer(run.Return, item)}</bdi>{(Answer(run.Return, item) == Answer(run.Record.Start.Return, item) ? null : $" (corrected; sealed as {Answer(run.Record.Start.Return, item)})")}</td><td data-name=\"On a sound unit\"><bdi>{string.Join(", ", item.Conforms)}</bdi></td></tr>\n");

    private static string Answer(UnitReturn unit, InspectionItem item) => unit.Answer(item.Id) ?? InspectionAnswer.NotLooked;

    private static SafeHtml Attachments(UnitReturn unit, Func<Attachment, byte[]?> attached) => unit.Attachments.Count == 0 ? SafeHtml.None : Markup.Of(
        $"""
        <div class="table"><table class="cards">
        <caption>Photos and files, kept in the data folder under the hash of their content.</caption>
        <thead><tr><th scope="col">File</th><th scope="col">Kind</th><th scope="col" class="number">Bytes</th><th scope="col">SHA-256</th></tr></thead>
        <tbody>
        {Markup.Join(unit.Attachments.Select(a => Markup.Of($"<tr><th scope=\"row\"><bdi>{a.Name}</bdi></th><td data-name=\"Kind\">{a.MediaType}</td><td class=\"number\" data-name=\"Bytes\">{Quantity.Fixed(a.Bytes, 0)}</td><td data-name=\"SHA-256\"><code>{a.Sha256}</code></td></tr>\n")))}</tbody>
        </table></div>
        {Markup.Join(unit.Attachments.Select(a => (Of: a, Picture: AttachedPicture.Of(a, attached))).Where(a => a.Picture is not null).Select(a => Photo(a.Of, a.Picture!)))}
        """);

    private static SafeHtml Photo(Attachment attachment, AttachedPicture picture) => Markup.Of(
        $"""
        <figure class="photo">
        <img alt="{attachment.Name}" src="data:{picture.MediaType};base64,{Convert.ToBase64String(picture.Bytes)}"/>
        <figcaption><bdi>{attachment.Name}</bdi>{(picture.IsReduced ? ", shown smaller than it is kept" : null)}. <code>SHA-256 {attachment.Sha256}</code></figcaption>
        </figure>

        """);
}

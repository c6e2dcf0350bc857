using Bench.Model.Features;
using Bench.Model.Instruments;
using Bench.Model.Runs;
using Bench.Reporting.Html;
using Bench.Reporting.Text;

namespace Bench.Reporting.Sections;

/// <summary>Exchanges with each device and how they went; age and jitter of the readings.</summary>
internal static class LinksSection
{
    public static SafeHtml Of(RunRecord record) =>
        record.Features is not { } features
            ? SafeHtml.None
            : Markup.Of(
                $"""
                <section aria-labelledby="links">
                <h2 id="links">Links and errors</h2>
                <div class="table"><table class="cards">
                <caption>Exchanges in this run; an attempt that was repeated counts again.</caption>
                <thead><tr><th scope="col">Device</th><th scope="col">Link</th><th scope="col">Part of</th><th scope="col" class="number">Exchanges</th><th scope="col" class="number">Silent</th><th scope="col" class="number">Damaged</th><th scope="col" class="number">Refused</th><th scope="col" class="number">Failed share</th></tr></thead>
                <tbody>
                {Markup.Join(features.Links.Select(Row))}</tbody>
                </table></div>
                {Times(features)}</section>
                """);

    private static SafeHtml Times(RunFeatures features) =>
        features.Sampling is not { } sampling
            ? SafeHtml.None
            : Markup.Of(
                $"""
                <div class="table"><table class="cards">
                <caption>Readings while the drive was on: from one good reading to the next, and how well the instant of a reading is known.</caption>
                <thead><tr><th scope="col">Reading</th><th scope="col" class="number">Readings</th><th scope="col" class="number">Half within, ms</th><th scope="col" class="number">99 % within, ms</th><th scope="col" class="number">Longest, ms</th><th scope="col" class="number">Instant, ± ms</th></tr></thead>
                <tbody>
                {Times("Position", sampling.Position)}{Times("Current, voltage, inputs", sampling.Meters)}</tbody>
                </table></div>

                """);

    private static SafeHtml Times(string reading, ReadingTimes times) => Markup.Of(
        $"<tr><th scope=\"row\">{reading}</th>{Cell("Readings", times.Readings)}{Cell("Half within, ms", Ms(times.MedianIntervalS))}{Cell("99 % within, ms", Ms(times.P99IntervalS))}{Cell("Longest, ms", Ms(times.WorstIntervalS))}{Cell("Instant, ± ms", Ms(times.InstantHalfWidthS))}</tr>\n");

    private static SafeHtml Cell(string name, long value) => Markup.Of($"<td class=\"number\" data-name=\"{name}\">{value}</td>");

    private static SafeHtml Cell(string name, string value) => Markup.Of($"<td class=\"number\" data-name=\"{name}\">{value}</td>");

    private static string Ms(double? seconds) => seconds is { } s ? FormattableString.Invariant($"{1000 * s:0.00}") : "–";

    private static IEnumerable<SafeHtml> Said(LinkCounts counts)
    {
        if (counts.Identity is { } identity)
        {
            yield return Markup.Of($"<br/>{identity}");
        }

        if (counts.TurnaroundMs is { } ms)
        {
            yield return Markup.Of($"<br/>answers after {FormattableString.Invariant($"{ms:0.0}")} ms (median)");
        }

        if (counts.Stream is { } s)
        {
            string delivery = FormattableString.Invariant(
                $"{s.RateHz:0.0} frames a second; {s.Lost} lost, {s.Doubled} doubled, {s.Damaged} damaged, {s.Dropped} dropped; 99 % delivered within {s.DelayP99Ms:0.0} ms of the least delayed");
            yield return Markup.Of($"<br/>{delivery}");
        }
    }

    private static SafeHtml Row(LinkCounts counts)
    {
        string share = counts.Exchanges > 0
            ? Quantity.Percent((double)(counts.Silent + counts.Garbled + counts.Refused) / counts.Exchanges)
            : "–";
        return Markup.Of(
            $"<tr><th scope=\"row\">{counts.Device}{Markup.Join(Said(counts))}</th><td data-name=\"Link\">{counts.Link}</td><td data-name=\"Part of\">{(counts.IsFeedback ? "unit" : "bench")}</td>{Cell("Exchanges", counts.Exchanges)}{Cell("Silent", counts.Silent)}{Cell("Damaged", counts.Garbled)}{Cell("Refused", counts.Refused)}{Cell("Failed share", share)}</tr>\n");
    }
}

using Bench.Model.BenchFiles;
using Bench.Model.Features;
using Bench.Model.Returns;
using Bench.Model.Runs;
using Bench.Reporting.Html;
using Bench.Reporting.Text;

namespace Bench.Reporting.Sections;

/// <summary>What was tested, with what, by which rules, when.</summary>
internal static class FactsSection
{
    public static SafeHtml Of(SealedRun run)
    {
        RunRecord record = run.Record;
        RunStart start = record.Start;
        return Markup.Of(
            $"""
            <section aria-labelledby="facts">
            <h2 id="facts">Unit, bench, profile, run</h2>
            <div class="facts">
            <section aria-labelledby="facts-unit"><h3 id="facts-unit">Unit and return</h3><dl>
            {Said("Serial", run, r => r.Serial)}{Said("Part", run, r => r.PartNumber ?? "not given")}{Maybe("Revision", run, r => r.Revision)}{Maybe("Date code", run, r => r.DateCode)}{Said("Return", run, r => r.ReturnNumber ?? "not given")}{Said("Claim", run, r => Wording.Of(r.Symptom))}{Said("Field note", run, r => r.FieldNote ?? "none")}{Markup.Join(start.Return.Measurements.Select(m => Fact("Field measured", m.ToString())))}{Maybe("In service", run, r => r.DaysInService is { } days ? Quantity.Count(days, "day", "days") : null)}{(start.Return.EntryHash is { } entry ? Hash("Entry of the return", entry) : SafeHtml.None)}</dl></section>
            <section aria-labelledby="facts-bench"><h3 id="facts-bench">Bench and calibration</h3><dl>
            {Fact("Bench", $"{start.Bench.Name}, position {start.Bench.Position}")}{Fact("Supply limit", Quantity.Of(start.Bench.SupplyCurrentLimitA, "A"))}{Meter("Current meter", start.Bench.Current, "A", start.StartedAt)}{Meter("Voltage meter", start.Bench.Voltage, "V", start.StartedAt)}{Markup.Join(start.Bench.Gauges.Select(g => Gauge(g, start.StartedAt)))}{Fact("Index input", start.Bench.HasIndex ? "wired" : "none: slip and drift at the shaft can't be seen")}{Fact("Emergency stop", start.Bench.HasEmergencyStop ? "wired, read during the run" : "not wired to an input")}{Hash("Bench file", start.Bench.Sha256)}</dl></section>
            <section aria-labelledby="facts-profile"><h3 id="facts-profile">Profile</h3><dl>
            {Fact("Family", start.Profile.Family)}{Fact("Version", start.Profile.Version)}{Fact("Author", start.Profile.Author)}{Fact("Approval", start.Profile.Approval ?? "draft: not approved")}{Hash("Profile file", start.Profile.Sha256)}</dl></section>
            <section aria-labelledby="facts-run"><h3 id="facts-run">Run</h3><dl>
            {Fact("Run", start.Id.ToString("D"))}{Fact("Began", Moment.Of(start.StartedAt))}{Fact("Ended", Moment.Of(record.EndedAt))}{Fact("Lasted", Moment.Of(record.EndedAt - start.StartedAt))}{Fact("Software", start.Software)}{Fact("Unit is", start.Simulated ? "SIMULATED" : "real")}{Fact("Moves", Quantity.Count(record.Moves.Count, "move", "moves"))}{Fact("Samples", Quantity.Count(record.Samples, "sample", "samples"))}{Fact("Outputs at end", record.IsInspectionOnly ? "none was touched" : record.OutputsConfirmedOff ? "confirmed off" : "▲ NOT confirmed off")}</dl></section>
            </div>
            </section>
            """);
    }

    // A correction never hides what was sealed.
    private static SafeHtml Said(string name, SealedRun run, Func<UnitReturn, string> of)
    {
        string asSealed = of(run.Record.Start.Return);
        string now = of(run.Return);
        return now == asSealed
            ? Fact(name, now)
            : Markup.Of($"<dt>{name}</dt><dd><bdi>{now}</bdi> (corrected; sealed as <bdi>{asSealed}</bdi>)</dd>\n");
    }

    private static SafeHtml Fact(string name, string value) => Markup.Of($"<dt>{name}</dt><dd><bdi>{value}</bdi></dd>\n");

    private static SafeHtml Maybe(string name, SealedRun run, Func<UnitReturn, string?> of) =>
        of(run.Record.Start.Return) is null && of(run.Return) is null ? SafeHtml.None : Said(name, run, r => of(r) ?? "not given");

    private static SafeHtml Hash(string name, string sha256) => Markup.Of($"<dt>{name}</dt><dd><code>SHA-256 {sha256}</code></dd>\n");

    private static SafeHtml Meter(string name, MeterDescription meter, string unit, DateTimeOffset at)
    {
        return Fact(
            name,
            $"u = {Quantity.Of(meter.StandardUncertainty, unit)}; calibrated {Moment.Of(meter.CalibratedOn)}, due {Moment.Of(meter.CalibrationDueOn)}, "
            + $"{State(meter.CalibrationDueOn, at)}; certificate {meter.Certificate}");
    }

    private static SafeHtml Gauge(GaugeDescription gauge, DateTimeOffset at)
    {
        FeatureDefinition feature = FeatureCatalog.Get(gauge.Feature);
        return Fact(
            $"Gauge study, {feature.Title}",
            $"u = {Quantity.Of(gauge.StandardUncertainty, feature.Unit)}; found {Moment.Of(gauge.FoundOn)}, due {Moment.Of(gauge.DueOn)}, "
            + $"{State(gauge.DueOn, at)}; study {gauge.Study}");
    }

    private static string State(DateOnly due, DateTimeOffset at)
    {
        int overdue = DateOnly.FromDateTime(at.DateTime).DayNumber - due.DayNumber;
        return overdue > 0 ? $"■ overdue by {Quantity.Count(overdue, "day", "days")} at the run" : "● in date at the run";
    }
}

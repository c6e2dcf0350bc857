using Bench.Model.Features;
using Bench.Model.Judging;
using Bench.Model.Moves;
using Bench.Model.Runs;
using Bench.Model.Serialization;
using Bench.Model.Traces;
using static Bench.Cli.Exporting.ExportColumn;

namespace Bench.Cli.Exporting;

/// <summary>Tables of sealed runs, under the verdict each was sealed with. Columns are told in docs/export.md.</summary>
internal static class RunTables
{
    private static readonly ExportColumn[] RunColumns =
    [
        Text("run"), Text("serial"), Instant("started_at"), Instant("ended_at"), Text("part"), Text("return_number"), Text("symptom"), Text("family"),
        Text("profile_version"), Text("bench"), Text("position"), Text("software"), Flag("simulated"), Text("outcome"), Text("disposition"), Text("claim"),
        Text("abort"), Text("likeliest_cause"), Number("cause_probability"), Whole("moves"), Whole("samples"), Flag("outputs_confirmed_off"), Text("hash"),
    ];

    private static readonly ExportColumn[] FindingColumns =
    [
        Text("run"), Text("serial"), Text("feature"), Text("subject"), Number("value"), Number("standard_uncertainty"), Text("unit"), Number("lower"),
        Number("upper"), Text("rule"), Text("severity"), Text("decision"), Number("conformity_probability"), Text("statement"),
    ];

    private static readonly ExportColumn[] FeatureColumns =
    [
        Text("run"), Text("serial"), Text("feature"), Text("subject"), Number("value"), Number("standard_uncertainty"), Text("unit"),
        Whole("observations"), Text("not_assessable_because"),
    ];

    private static readonly ExportColumn[] MoveColumns =
    [
        Text("run"), Text("serial"), Whole("move"), Text("stage"), Text("from_port"), Text("to_port"), Text("direction"), Text("end"),
        Whole("target_count"), Whole("travel_counts"), Number("drive_on_s"), Number("drive_off_s"), Number("settled_s"), Whole("landing_count"),
        Number("landing_error_counts"), Number("unit_error_counts"), Number("unit_error_uncertainty_counts"), Number("coast_counts"),
        Number("speed_counts_per_s"), Number("running_current_a"), Number("peak_current_a"), Number("loaded_voltage_v"), Number("energy_j"),
        Whole("current_interruptions"), Whole("feedback_dropouts"), Flag("counted"), Flag("passed"), Text("failed_because"),
    ];

    private static readonly ExportColumn[] TraceColumns =
    [
        Number("time_s"), Text("drive"), Text("feedback"), Whole("count"), Number("current_a"), Number("voltage_v"), Text("index"),
    ];

    /// <summary>A row for each run.</summary>
    public static ExportTable Runs(IEnumerable<SealedRun> runs) => new(RunColumns, runs.Select(Run));

    /// <summary>A row for each finding; none for a run without a verdict.</summary>
    public static ExportTable Findings(IEnumerable<SealedRun> runs) => new(
        FindingColumns, runs.SelectMany(run => (run.Record.Judgement?.Findings ?? []).Select(f => Finding(run, f))));

    /// <summary>A row for each feature; none for a run that ended before there were any.</summary>
    public static ExportTable Features(IEnumerable<SealedRun> runs) => new(
        FeatureColumns, runs.SelectMany(run => (run.Record.Features?.Features ?? []).Select(f => Feature(run, f))));

    /// <summary>A row for each move, with what its slice of the trace says.</summary>
    public static ExportTable Moves(IEnumerable<SealedRun> runs) => new(MoveColumns, runs.SelectMany(run =>
    {
        Dictionary<int, MoveFeatures> features = (run.Record.Features?.Moves ?? []).ToDictionary(f => f.Number);
        return run.Record.Moves.Select(move => Move(run, move, features.GetValueOrDefault(move.Number)));
    }));

    /// <summary>A row for each sample. What was not read is null.</summary>
    public static ExportTable Samples(Trace trace) => new(TraceColumns, Enumerable.Range(0, trace.Count).Select(i => Sample(trace[i])));

    private static object?[] Run(SealedRun run)
    {
        RunRecord record = run.Record;
        RunStart start = record.Start;
        Cause? cause = record.Judgement?.Causes is [{ } first, ..] ? first : null;
        return
        [
            Id(record), run.Return.Serial, start.StartedAt, record.EndedAt, run.Return.PartNumber, run.Return.ReturnNumber,
            BenchJson.Word(run.Return.Symptom), start.Profile.Family, start.Profile.Version, start.Bench.Name, start.Bench.Position, start.Software, start.Simulated,
            BenchJson.Word(record.Outcome), Word(record.Judgement?.Disposition), Word(record.Judgement?.Claim), Word(record.Abort), cause?.Id, cause?.Probability,
            record.Moves.Count, record.Samples, record.OutputsConfirmedOff, run.Hash,
        ];
    }

    private static object?[] Finding(SealedRun run, Finding finding) =>
    [
        Id(run.Record), run.Return.Serial, finding.Feature.Name, finding.Feature.Subject, finding.Feature.Value, finding.Feature.StandardUncertainty,
        finding.Feature.Unit, finding.Limit.Lower, finding.Limit.Upper, BenchJson.Word(finding.Limit.Rule), BenchJson.Word(finding.Limit.Severity),
        BenchJson.Word(finding.Decision), finding.ConformityProbability, finding.Statement,
    ];

    private static object?[] Feature(SealedRun run, Feature feature) =>
    [
        Id(run.Record), run.Return.Serial, feature.Name, feature.Subject, feature.Value, feature.StandardUncertainty, feature.Unit, feature.Observations,
        feature.NotAssessableBecause,
    ];

    private static object?[] Move(SealedRun run, Move move, MoveFeatures? features) =>
    [
        Id(run.Record), run.Return.Serial, move.Number, BenchJson.Word(move.Stage), move.FromPort, move.ToPort, BenchJson.Word(move.Direction),
        BenchJson.Word(move.End), move.TargetCount, move.TravelCounts, move.DriveOnS, move.DriveOffS, move.SettledS,
        features?.LandingCount, features?.LandingErrorCounts, features?.UnitErrorCounts, features?.UnitErrorUncertainty, features?.CoastCounts,
        features?.SpeedCountsPerS, features?.RunningCurrentA, features?.PeakCurrentA, features?.LoadedVoltageV, features?.EnergyJ,
        features?.CurrentInterruptions, features?.FeedbackDropouts, features?.Counts, features?.Passed, features?.FailedBecause,
    ];

    private static object?[] Sample(in Sample sample) =>
    [
        sample.TimeS, BenchJson.Word(sample.Drive), BenchJson.Word(sample.Feedback), sample.HasCount ? sample.Count : null,
        Read(sample.CurrentA), Read(sample.VoltageV), BenchJson.Word(sample.Index),
    ];

    private static double? Read(double value) => double.IsNaN(value) ? null : value;

    private static string Id(RunRecord record) => record.Start.Id.ToString("D");

    private static string? Word<T>(T? value)
        where T : struct, Enum => value is { } v ? BenchJson.Word(v) : null;
}

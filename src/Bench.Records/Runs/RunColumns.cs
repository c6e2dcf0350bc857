using System.Globalization;
using Bench.Model.Runs;
using Bench.Model.Serialization;

namespace Bench.Records.Runs;

/// <summary>What lists and searches need of a run, as the columns beside its record hold it.</summary>
internal sealed record RunColumns(
    string Id, string StartedAt, string Serial, string Family, bool Simulated, string? Outcome, string? Disposition, string? Claim,
    string? Symptom, string? LikeliestCause)
{
    /// <summary>Of a run that begins.</summary>
    public static RunColumns Of(RunStart start) => new(
        IdText(start.Id), TimeText(start.StartedAt), start.Return.Serial, start.Profile.Family, start.Simulated, null, null, null,
        BenchJson.Word(start.Return.Symptom), null);

    /// <summary>Of a run that ended.</summary>
    public static RunColumns Of(RunRecord record) => Of(record.Start) with
    {
        Outcome = BenchJson.Word(record.Outcome),
        Disposition = record.Judgement?.Disposition is { } disposition ? BenchJson.Word(disposition) : null,
        Claim = record.Judgement is { } judgement ? BenchJson.Word(judgement.Claim) : null,
        LikeliestCause = record.Judgement?.Causes is [{ Id: string cause }, ..] ? cause : null,
    };

    /// <summary>A run's id as stored: 36 characters, lower case.</summary>
    public static string IdText(Guid id) => id.ToString("D", CultureInfo.InvariantCulture);

    /// <summary>An instant as stored: UTC, so that the order of texts is the order of times.</summary>
    public static string TimeText(DateTimeOffset time) =>
        time.UtcDateTime.ToString("yyyy-MM-dd'T'HH:mm:ss.fffffff'Z'", CultureInfo.InvariantCulture);
}

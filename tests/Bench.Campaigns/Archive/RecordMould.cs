using System.Globalization;
using System.Text.Json;
using System.Text.RegularExpressions;
using Bench.Model.Runs;
using Bench.Model.Serialization;
using Bench.Records.Runs;

namespace Bench.Campaigns.Archive;

/// <summary>
/// A real record that others are cast from: the same evidence under another id, serial number and time. Those four places
/// are replaced in its canonical text, which stays canonical: no key moves, and no value needs an escape.
/// </summary>
internal sealed partial class RecordMould
{
    private readonly string[] _between;
    private readonly string[] _keys;
    private readonly RunColumns _columns;
    private readonly TimeSpan _length;

    /// <summary>Takes a record as a mould.</summary>
    /// <param name="text">Its canonical JSON.</param>
    /// <param name="traceFile">Its trace file, which all casts share.</param>
    /// <param name="traceSha256">Hash of that file.</param>
    public RecordMould(string text, string? traceFile, string? traceSha256)
    {
        RunRecord record = JsonSerializer.Deserialize<RunRecord>(text, BenchJson.Compact)!;
        _columns = RunColumns.Of(record);
        _length = record.EndedAt - record.Start.StartedAt;
        TraceFile = traceFile;
        TraceSha256 = traceSha256;
        MatchCollection places = Places().Matches(text);
        _keys = [.. places.Select(m => m.Groups["key"].Value)];
        int[] cuts = [0, .. places.SelectMany(m => new[] { m.Groups["value"].Index, m.Groups["value"].Index + m.Groups["value"].Length }), text.Length];
        _between = [.. cuts.Chunk(2).Select(c => text[c[0]..c[1]])];
        if (!_keys.Order(StringComparer.Ordinal).SequenceEqual(["ended_at", "id", "serial", "started_at"]))
        {
            throw new InvalidOperationException($"the record of {_columns.Serial} has its id, serial number and times in {_keys.Length} places, not 4");
        }
    }

    /// <summary>Name of the trace file.</summary>
    public string? TraceFile { get; }

    /// <summary>Hash of the trace file.</summary>
    public string? TraceSha256 { get; }

    /// <summary>What the serial numbers of its family begin with.</summary>
    public string SerialStart => _columns.Serial[..(_columns.Serial.IndexOf('-', StringComparison.Ordinal) + 1)];

    /// <summary>A run like it.</summary>
    public (RunColumns Columns, string Text) Cast(Guid id, string serial, DateTimeOffset startedAt)
    {
        RunColumns columns = _columns with { Id = RunColumns.IdText(id), Serial = serial, StartedAt = RunColumns.TimeText(startedAt) };
        string[] parts = new string[_between.Length + _keys.Length];
        for (int i = 0; i < _between.Length; i++)
        {
            parts[2 * i] = _between[i];
        }

        for (int i = 0; i < _keys.Length; i++)
        {
            parts[(2 * i) + 1] = _keys[i] switch
            {
                "id" => columns.Id,
                "serial" => serial,
                "started_at" => Stamp(startedAt),
                _ => Stamp(startedAt + _length),
            };
        }

        return (columns, string.Concat(parts));
    }

    private static string Stamp(DateTimeOffset at) => at.ToString("yyyy-MM-dd'T'HH:mm:ss.FFFFFFFzzz", CultureInfo.InvariantCulture);

    [GeneratedRegex("\"(?<key>id|serial|started_at|ended_at)\":\"(?<value>[0-9a-f]{8}-[0-9a-f]{4}-[0-9a-f-]{22}|[A-Z0-9]+-[0-9]+|[0-9-]{10}T[0-9:.]+[+-][0-9:]+)\"")]
    private static partial Regex Places();
}

using System.Text.Json;
using Bench.Model.Entries;
using Bench.Model.Serialization;
using Bench.Records.Canonical;

namespace Bench.Records.Entries;

/// <summary>Reads an entry's stored text.</summary>
internal static class EntryText
{
    /// <summary>The entry.</summary>
    /// <exception cref="FormatException">The text is no entry this program knows.</exception>
    public static StoreEntry Parse(string text)
    {
        string kind = KindOf(text);
        return kind switch
        {
            _ when kind == BenchJson.Word(EntryKind.Judgement) => StoredJson.Parse<LaterJudgement>(text),
            _ when kind == BenchJson.Word(EntryKind.Correction) => StoredJson.Parse<Correction>(text),
            _ when kind == BenchJson.Word(EntryKind.SignOff) => StoredJson.Parse<SignOff>(text),
            _ when kind == BenchJson.Word(EntryKind.Return) => StoredJson.Parse<ReturnEntry>(text),
            _ when kind == BenchJson.Word(EntryKind.Note) => StoredJson.Parse<Note>(text),
            _ when kind == BenchJson.Word(EntryKind.Key) => StoredJson.Parse<KeyEntry>(text),
            _ when kind == BenchJson.Word(EntryKind.DroppedTrace) => StoredJson.Parse<DroppedTrace>(text),
            _ => throw new FormatException($"its kind '{kind}' is none this program knows"),
        };
    }

    /// <summary>The word for its kind. Entries of the first schema name none; they are judgements.</summary>
    /// <exception cref="FormatException">The text is no JSON object.</exception>
    public static string KindOf(string text)
    {
        try
        {
            using JsonDocument document = JsonDocument.Parse(text);
            return document.RootElement.TryGetProperty("kind", out JsonElement kind)
                ? kind.GetString() ?? throw new FormatException("its kind is null")
                : BenchJson.Word(EntryKind.Judgement);
        }
        catch (Exception e) when (e is JsonException or InvalidOperationException)
        {
            throw new FormatException(e.Message, e);
        }
    }
}

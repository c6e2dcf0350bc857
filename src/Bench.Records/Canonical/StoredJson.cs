using System.Text.Json;
using Bench.Model.Serialization;

namespace Bench.Records.Canonical;

/// <summary>Reads back what <see cref="CanonicalJson"/> wrote.</summary>
internal static class StoredJson
{
    /// <summary>The value in a stored text.</summary>
    /// <exception cref="FormatException">The text is not such a value: it was altered, or another version wrote it.</exception>
    public static T Parse<T>(string text)
        where T : class
    {
        try
        {
            return JsonSerializer.Deserialize<T>(text, BenchJson.Compact) ?? throw new FormatException("it holds only 'null'");
        }
        catch (Exception e) when (e is JsonException or ArgumentException)
        {
            throw new FormatException(e.Message, e);
        }
    }
}

using System.Text.Json;
using System.Text.Json.Serialization;

namespace Bench.Model.Serialization;

/// <summary>How records and results are written as JSON (RFC 8259): snake_case keys, kebab-case words, no NaN.</summary>
public static class BenchJson
{
    /// <summary>Compact, for storing and hashing.</summary>
    public static JsonSerializerOptions Compact { get; } = Make(indented: false);

    /// <summary>Indented, for people and for <c>--json</c>.</summary>
    public static JsonSerializerOptions Indented { get; } = Make(indented: true);

    /// <summary>The word that stands for an enumeration value in files, records and screens, e.g. <c>does-not-conform</c>.</summary>
    public static string Word<T>(T value)
        where T : struct, Enum => JsonNamingPolicy.KebabCaseLower.ConvertName(value.ToString());

    private static JsonSerializerOptions Make(bool indented)
    {
        JsonSerializerOptions options = new()
        {
            WriteIndented = indented,
            NewLine = "\n",
            PropertyNamingPolicy = JsonNamingPolicy.SnakeCaseLower,
            RespectNullableAnnotations = true,
            RespectRequiredConstructorParameters = true,
            Encoder = System.Text.Encodings.Web.JavaScriptEncoder.UnsafeRelaxedJsonEscaping,
            Converters = { new JsonStringEnumConverter(JsonNamingPolicy.KebabCaseLower, allowIntegerValues: false) },
        };
        options.MakeReadOnly(populateMissingResolver: true);
        return options;
    }
}

using System.Text.Json.Nodes;
using Tomlyn;
using Tomlyn.Model;

namespace Bench.Tests.Model.Configuration;

/// <summary>TOML as JSON by the library's own model, a way that does not pass through our reader.</summary>
internal static class TomlAsJson
{
    public static JsonNode Of(string text) => Convert(TomlSerializer.Deserialize<TomlTable>(text)!)!;

    private static JsonNode? Convert(object? value) => value switch
    {
        TomlTable table => new JsonObject(table.Select(entry => KeyValuePair.Create(entry.Key, Convert(entry.Value)))),
        TomlTableArray tables => new JsonArray([.. tables.Select(Convert)]),
        TomlArray array => new JsonArray([.. array.Select(Convert)]),
        string text => JsonValue.Create(text),
        long whole => JsonValue.Create(whole),
        double number => JsonValue.Create(number),
        bool flag => JsonValue.Create(flag),
        TomlDateTime date => JsonValue.Create(date.ToString()),
        _ => throw new InvalidOperationException($"no JSON for {value?.GetType()}"),
    };
}

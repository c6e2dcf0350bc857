using System.Globalization;
using System.Text;
using System.Text.Json;
using Bench.Model.Serialization;

namespace Bench.Records.Canonical;

/// <summary>
/// The one text of a value that is stored and hashed, after RFC 8785 (JSON Canonicalization Scheme): keys in order of
/// their UTF-16 code units, no white space, numbers as ECMAScript writes a double, only the escapes JSON demands.
/// </summary>
/// <remarks>Every number is taken as a double (I-JSON, RFC 7493): whole numbers beyond 2^53 lose digits.</remarks>
public static class CanonicalJson
{
    /// <summary>The canonical text of a value, written with <see cref="BenchJson.Compact"/>.</summary>
    /// <exception cref="ArgumentException">It holds a number that is not finite.</exception>
    public static string Write<T>(T value)
    {
        using JsonDocument document = JsonSerializer.SerializeToDocument(value, BenchJson.Compact);
        return Write(document.RootElement);
    }

    /// <summary>The canonical text of an element.</summary>
    /// <exception cref="FormatException">An object has a key twice.</exception>
    public static string Write(JsonElement element)
    {
        StringBuilder text = new();
        Append(text, element);
        return text.ToString();
    }

    private static void Append(StringBuilder text, JsonElement element)
    {
        switch (element.ValueKind)
        {
            case JsonValueKind.Object:
                AppendObject(text, element);
                break;
            case JsonValueKind.Array:
                AppendArray(text, element);
                break;
            case JsonValueKind.String:
                AppendString(text, element.GetString()!);
                break;
            case JsonValueKind.Number:
                text.Append(EcmaScriptNumber.Format(element.GetDouble()));
                break;
            default:
                text.Append(element.GetRawText());
                break;
        }
    }

    private static void AppendObject(StringBuilder text, JsonElement element)
    {
        List<JsonProperty> properties = [.. element.EnumerateObject()];
        properties.Sort((a, b) => string.CompareOrdinal(a.Name, b.Name));
        text.Append('{');
        for (int i = 0; i < properties.Count; i++)
        {
            if (i > 0)
            {
                if (properties[i].Name == properties[i - 1].Name)
                {
                    throw new FormatException($"the key '{properties[i].Name}' appears twice in one JSON object");
                }

                text.Append(',');
            }

            AppendString(text, properties[i].Name);
            text.Append(':');
            Append(text, properties[i].Value);
        }

        text.Append('}');
    }

    private static void AppendArray(StringBuilder text, JsonElement element)
    {
        text.Append('[');
        bool first = true;
        foreach (JsonElement item in element.EnumerateArray())
        {
            if (!first)
            {
                text.Append(',');
            }

            first = false;
            Append(text, item);
        }

        text.Append(']');
    }

    private static void AppendString(StringBuilder text, string value)
    {
        text.Append('"');
        foreach (char c in value)
        {
            switch (c)
            {
                case '"': text.Append("\\\""); break;
                case '\\': text.Append("\\\\"); break;
                case '\b': text.Append("\\b"); break;
                case '\t': text.Append("\\t"); break;
                case '\n': text.Append("\\n"); break;
                case '\f': text.Append("\\f"); break;
                case '\r': text.Append("\\r"); break;
                case < ' ': text.Append(CultureInfo.InvariantCulture, $"\\u{(int)c:x4}"); break;
                default: text.Append(c); break;
            }
        }

        text.Append('"');
    }
}

using Bench.Model.Serialization;

namespace Bench.Records.Database;

/// <summary>Back from the word that stands for an enumeration value (<see cref="BenchJson.Word"/>) to the value.</summary>
internal static class EnumWords<T>
    where T : struct, Enum
{
    private static readonly Dictionary<string, T> ByWord = Enum.GetValues<T>().ToDictionary(BenchJson.Word, StringComparer.Ordinal);

    /// <summary>The value of a word; null for null and for a word that stands for none.</summary>
    public static T? Parse(string? word) => word is not null && ByWord.TryGetValue(word, out T value) ? value : null;
}

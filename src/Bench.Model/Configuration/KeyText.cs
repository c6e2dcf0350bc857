namespace Bench.Model.Configuration;

/// <summary>How a message shows a key that the user wrote: one short line whatever stands in it.</summary>
internal static class KeyText
{
    private const int MostShown = 60;

    /// <summary>A bare key, dots included, as it is; any other in quotes, control characters replaced, cut when long.</summary>
    public static string Of(string key)
    {
        bool bare = key.Length > 0 && key.All(c => char.IsAsciiLetterOrDigit(c) || c is '_' or '-' or '.');
        string shown = key.Length <= MostShown ? key : string.Concat(key.AsSpan(0, MostShown), "…");
        return bare ? shown : $"\"{string.Concat(shown.Select(c => char.IsControl(c) ? ' ' : c))}\"";
    }
}

namespace Bench.Model.BenchFiles;

/// <summary>The form of a SCPI query (SCPI-1999 volume 1, 6.2; IEEE 488.2, 7.6).</summary>
public static class ScpiQuery
{
    /// <summary>What is allowed, for messages.</summary>
    internal const string Allowed = "a SCPI query such as \"MEAS:CURR?\" is allowed: keywords of letters and digits joined by colons, then ?";

    /// <summary>Whether a text is one query: a header that ends in ?, and parameters after a blank, if any.</summary>
    public static bool IsOne(string text)
    {
        int end = text.IndexOf('?', StringComparison.Ordinal);
        if (end < 1 || text.Any(c => c is < ' ' or > '~' or ';') || (end + 1 < text.Length && text[end + 1] != ' '))
        {
            return false;
        }

        string header = text[..end];
        return header[0] == '*' ? IsKeyword(header[1..]) : header.TrimStart(':').Split(':').All(IsKeyword) && !header.StartsWith("::", StringComparison.Ordinal);
    }

    private static bool IsKeyword(string text) =>
        text.Length > 0 && char.IsAsciiLetter(text[0]) && text.All(c => char.IsAsciiLetterOrDigit(c) || c == '_');
}

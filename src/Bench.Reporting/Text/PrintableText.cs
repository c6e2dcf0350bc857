using System.Globalization;
using System.Text;

namespace Bench.Reporting.Text;

/// <summary>
/// Text from outside (serial numbers, field notes, names from files), made harmless to show: a control character or
/// half a surrogate pair is not allowed in XML and can drive a terminal, and a direction override can make a serial
/// number read as another.
/// </summary>
internal static class PrintableText
{
    /// <summary>The text with each such character replaced by U+FFFD; line breaks and tabs become spaces.</summary>
    public static string Of(string text)
    {
        if (!NeedsWork(text))
        {
            return text;
        }

        StringBuilder clean = new(text.Length);
        foreach (Rune rune in text.EnumerateRunes())
        {
            clean.Append(
                rune.Value is '\n' or '\r' or '\t' ? " "
                : IsPrintable(rune) ? rune.ToString()
                : "\uFFFD");
        }

        return clean.ToString();
    }

    private static bool NeedsWork(string text)
    {
        foreach (Rune rune in text.EnumerateRunes())
        {
            if (!IsPrintable(rune))
            {
                return true;
            }
        }

        return false;
    }

    // EnumerateRunes gives U+FFFD for a lone surrogate, so such text must be rebuilt too.
    private static bool IsPrintable(Rune rune) =>
        rune.Value is not (0xFFFD or 0xFFFE or 0xFFFF)
        && Rune.GetUnicodeCategory(rune) is not (UnicodeCategory.Control or UnicodeCategory.Format
            or UnicodeCategory.LineSeparator or UnicodeCategory.ParagraphSeparator or UnicodeCategory.PrivateUse
            or UnicodeCategory.OtherNotAssigned);
}

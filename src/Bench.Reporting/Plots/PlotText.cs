using Bench.Reporting.Text;

namespace Bench.Reporting.Plots;

/// <summary>Text that may be set in a plot.</summary>
internal static class PlotText
{
    /// <summary>Longest name set in a plot, characters; the page's tables have the whole one.</summary>
    public const int MostCharacters = 48;

    /// <summary>Without characters that XML 1.0 does not allow or that turn the reading direction, and not too long.</summary>
    public static string Printable(string text) => Shortened(text, MostCharacters);

    /// <summary>As <see cref="Printable"/>, and no longer than there is room.</summary>
    public static string Shortened(string text, int most)
    {
        string clean = PrintableText.Of(text);
        if (clean.Length <= most)
        {
            return clean;
        }

        int kept = most - 1;
        return string.Concat(clean.AsSpan(0, char.IsHighSurrogate(clean[kept - 1]) ? kept - 1 : kept), "…");
    }
}

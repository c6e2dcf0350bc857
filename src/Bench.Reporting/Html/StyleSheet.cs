using System.Globalization;
using Bench.Reporting.Plots;

namespace Bench.Reporting.Html;

/// <summary>The packet's style sheet with its fonts inside.</summary>
internal static class StyleSheet
{
    private static readonly Lazy<SafeHtml> Sheet = new(() => new SafeHtml(Face("Regular", 400) + Face("Bold", 700) + Css()));

    /// <summary>The text; ends with a line break.</summary>
    public static SafeHtml Text => Sheet.Value;

    private static string Face(string style, int weight) =>
        $"@font-face {{ font-family: \"{PlotFont.Family}\"; font-weight: {weight.ToString(CultureInfo.InvariantCulture)}; "
        + $"src: url(data:font/woff2;base64,{Convert.ToBase64String(PlotFont.Bytes($"BenchSans-{style}.woff2"))}) format(\"woff2\"); }}\n";

    private static string Css()
    {
        using Stream source = typeof(StyleSheet).Assembly.GetManifestResourceStream("html/packet.css")
            ?? throw new InvalidOperationException("the style sheet is not in this assembly; build it again");
        using StreamReader reader = new(source);
        return reader.ReadToEnd().ReplaceLineEndings("\n");
    }
}

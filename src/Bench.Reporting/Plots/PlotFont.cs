using ScottPlot;
using SkiaSharp;

namespace Bench.Reporting.Plots;

/// <summary>
/// The font of plots, from this assembly. On a machine without fonts the text of a plot would silently disappear, and
/// with other fonts it would be laid out differently.
/// </summary>
public sealed class PlotFont : IFontResolver
{
    /// <summary>Name of the family in SVG and style sheets.</summary>
    public const string Family = "Bench Sans";

    private static readonly Lazy<bool> Registration = new(() =>
    {
        Fonts.FontResolvers.Insert(0, new PlotFont());
        return true;
    });

    private PlotFont()
    {
    }

    /// <summary>Makes the font known to the plotting library, once per process.</summary>
    public static void Register() => _ = Registration.Value;

    /// <summary>The font's file as it goes into a page.</summary>
    /// <param name="file">Name within <c>fonts/</c>.</param>
    internal static byte[] Bytes(string file)
    {
        using Stream source = Open(file);
        using MemoryStream copy = new();
        source.CopyTo(copy);
        return copy.ToArray();
    }

    /// <inheritdoc/>
    public SKTypeface? CreateTypeface(string fontName, FontWeight weight, FontSlant slant, FontSpacing spacing) =>
        CreateTypeface(fontName, weight >= FontWeight.Bold, slant != FontSlant.Upright);

    /// <inheritdoc/>
    public SKTypeface? CreateTypeface(string fontName, bool bold, bool italic)
    {
        if (fontName != Family)
        {
            return null;
        }

        using Stream source = Open("BenchSans-Regular.ttf");
        return SKTypeface.FromStream(source);
    }

    private static Stream Open(string file) =>
        typeof(PlotFont).Assembly.GetManifestResourceStream("fonts/" + file)
        ?? throw new InvalidOperationException($"the font '{file}' is not in this assembly; build it again");
}

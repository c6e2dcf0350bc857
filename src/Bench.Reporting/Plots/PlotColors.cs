using ScottPlot;

namespace Bench.Reporting.Plots;

/// <summary>
/// The few colours of plots. Blue and orange keep apart under the common colour-vision deficiencies (after Okabe and
/// Ito, darkened to a contrast of 4.5 and more on white); yet no meaning rests on colour alone. The packet's style sheet
/// turns each into its counterpart on dark, so the values here and there belong together.
/// </summary>
internal static class PlotColors
{
    /// <summary>Text and axes.</summary>
    public static Color Ink { get; } = Color.FromHex("#1C242B");

    /// <summary>What stands behind: second series, notes.</summary>
    public static Color Quiet { get; } = Color.FromHex("#5B6670");

    /// <summary>Grid lines.</summary>
    public static Color Grid { get; } = Color.FromHex("#DDE2E6");

    /// <summary>Measured values.</summary>
    public static Color Data { get; } = Color.FromHex("#005F8F");

    /// <summary>Limits, and values beyond them.</summary>
    public static Color Alert { get; } = Color.FromHex("#B23A00");

    /// <summary>A permitted band.</summary>
    public static Color Band { get; } = Color.FromHex("#E6F0F5");
}

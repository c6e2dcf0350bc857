using System.Globalization;

namespace Bench.Campaigns.Wire;

/// <summary>A line that reached the program from the supply.</summary>
/// <param name="TimeS">When, seconds.</param>
/// <param name="To">The line before it.</param>
/// <param name="Text">What it says.</param>
public sealed record SupplyAnswer(double TimeS, SupplyLine To, string Text)
{
    /// <summary>The number it is; NaN when it is none.</summary>
    public double Value { get; } = double.TryParse(Text, NumberStyles.Float, CultureInfo.InvariantCulture, out double value) ? value : double.NaN;
}

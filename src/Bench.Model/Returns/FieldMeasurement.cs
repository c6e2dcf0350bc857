using System.Globalization;
using System.Text.RegularExpressions;

namespace Bench.Model.Returns;

/// <summary>A number the field took at the installation, before the unit was sent in.</summary>
/// <param name="Quantity">What was measured, 1 to 64 printable characters.</param>
/// <param name="Value">The number, finite.</param>
/// <param name="Unit">Its unit symbol, 1 to 16 printable characters without spaces.</param>
public sealed partial record FieldMeasurement(string Quantity, double Value, string Unit)
{
    /// <summary>How one is written.</summary>
    public const string Form = "QUANTITY = NUMBER UNIT, e.g. supply voltage = 23.8 V";

    /// <summary>Reads one as <see cref="Form"/> says; null when it is not so written.</summary>
    public static FieldMeasurement? Parse(string text)
    {
        ArgumentNullException.ThrowIfNull(text);
        Match match = Written().Match(text);
        return match.Success
            && double.TryParse(match.Groups["value"].ValueSpan, NumberStyles.Float, CultureInfo.InvariantCulture, out double value)
            && double.IsFinite(value)
            && LabelText.FindUnprintable(text) is null
            ? new FieldMeasurement(match.Groups["quantity"].Value, value, match.Groups["unit"].Value)
            : null;
    }

    /// <inheritdoc/>
    public override string ToString() => string.Create(CultureInfo.InvariantCulture, $"{Quantity} = {Value} {Unit}");

    [GeneratedRegex(@"^\s*(?<quantity>[^=\s][^=]{0,62}?)\s*=\s*(?<value>[-+]?\d{1,15}(\.\d{1,9})?)\s*(?<unit>[^\s\d.,][^\s]{0,15})\s*$")]
    private static partial Regex Written();
}

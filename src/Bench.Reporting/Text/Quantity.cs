using System.Globalization;
using Bench.Model.Features;

namespace Bench.Reporting.Text;

/// <summary>
/// Numbers as people read them: unit beside, digits no finer than the uncertainty. Number and unit are joined by a
/// no-break space, so that a line never ends between them.
/// </summary>
internal static class Quantity
{
    private const int PlainDigits = 4;
    private const char NoBreak = '\u00A0';

    /// <summary>A value to at most four significant digits, with its unit.</summary>
    public static string Of(double value, string unit) => Number(value) + Suffix(unit, value);

    /// <summary>A value to at most four significant digits.</summary>
    public static string Number(double value)
    {
        if (value == 0)
        {
            return "0";
        }

        int decimals = Math.Clamp(PlainDigits - 1 - Exponent(value), 0, 9);
        return Fixed(value, decimals).Contains('.', StringComparison.Ordinal)
            ? Fixed(value, decimals).TrimEnd('0').TrimEnd('.')
            : Fixed(value, decimals);
    }

    /// <summary>
    /// Value ± U with the unit, U to two significant digits and the value to the same place (JCGM 100:2008, 7.2.6);
    /// an exact value alone; a dash when there is none.
    /// </summary>
    public static string Of(Feature feature)
    {
        if (feature.Value is not { } value)
        {
            return "–";
        }

        return feature.ExpandedUncertainty is double expanded && expanded > 0 ? Of(value, expanded, feature.Unit) : Of(value, feature.Unit);
    }

    /// <summary>An uncertainty: two significant digits (JCGM 100:2008, 7.2.6), with its unit.</summary>
    public static string Rounded(double uncertainty, string unit) => Fixed(uncertainty, Decimals(uncertainty)) + Suffix(unit, uncertainty);

    /// <summary>Value ± U as for a feature.</summary>
    /// <param name="value">The value.</param>
    /// <param name="expanded">U, above 0.</param>
    /// <param name="unit">Their unit.</param>
    public static string Of(double value, double expanded, string unit)
    {
        int decimals = Decimals(expanded);
        return $"{Fixed(value, decimals)}{NoBreak}±{NoBreak}{Fixed(expanded, decimals)}{Suffix(unit, value)}";
    }

    /// <summary>Decimals that show an uncertainty to two significant digits.</summary>
    public static int Decimals(double expanded) => Math.Clamp(1 - Exponent(expanded), 0, 9);

    /// <summary>A share as a percentage: one decimal, finer near 0 and 1 so that neither is claimed by rounding.</summary>
    public static string Percent(double share)
    {
        double percent = 100 * share;
        return percent switch
        {
            0 or 100 => $"{Fixed(percent, 0)}{NoBreak}%",
            < 0.1 => $"<{NoBreak}0.1{NoBreak}%",
            > 99.9 => $">{NoBreak}99.9{NoBreak}%",
            _ => $"{Fixed(percent, 1)}{NoBreak}%",
        };
    }

    /// <summary>A sum of money: the currency's name behind.</summary>
    public static string Money(double amount, string currency) => $"{Fixed(amount, 2)}{NoBreak}{currency}";

    /// <summary>A whole number with the noun that fits it.</summary>
    public static string Count(long number, string one, string many) =>
        number.ToString(CultureInfo.InvariantCulture) + " " + (number == 1 ? one : many);

    /// <summary>A number with a fixed number of decimals, with the true minus sign.</summary>
    public static string Fixed(double value, int decimals)
    {
        string text = value.ToString("F" + decimals.ToString(CultureInfo.InvariantCulture), CultureInfo.InvariantCulture);
        bool isZero = text.AsSpan().IndexOfAnyInRange('1', '9') < 0;
        return isZero ? text.TrimStart('-') : text.Replace('-', '−');
    }

    // The unit one of pure numbers is not written (common practice, no source).
    private static string Suffix(string unit, double value) => unit switch
    {
        "1" => string.Empty,
        "count" when value != 1 => NoBreak + "counts",
        _ => NoBreak + unit,
    };

    private static int Exponent(double value) => (int)Math.Floor(Math.Log10(Math.Abs(value)));
}

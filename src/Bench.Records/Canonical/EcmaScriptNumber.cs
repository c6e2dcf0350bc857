using System.Globalization;
using System.Text;

namespace Bench.Records.Canonical;

/// <summary>
/// A double as ECMAScript writes it (Number::toString, radix 10), which RFC 8785 section 3.2.2.3 asks for: the shortest
/// digits that read back as the same double, plain between 1e-6 and 1e21, with an exponent outside.
/// </summary>
public static class EcmaScriptNumber
{
    private const int MostPlainDigits = 21;
    private const int MostLeadingZeros = 6;

    /// <summary>The number's text. Minus zero is written as 0.</summary>
    /// <exception cref="ArgumentOutOfRangeException">It is not finite; JSON has no such number.</exception>
    public static string Format(double value)
    {
        if (!double.IsFinite(value))
        {
            throw new ArgumentOutOfRangeException(nameof(value), value, "JSON has no number that is not finite");
        }

        if (value == 0.0)
        {
            return "0";
        }

        // "R" gives the same shortest digits as ECMAScript, laid out differently.
        string shortest = Math.Abs(value).ToString("R", CultureInfo.InvariantCulture);
        int e = shortest.IndexOf('E', StringComparison.Ordinal);
        string mantissa = e < 0 ? shortest : shortest[..e];
        int exponent = e < 0 ? 0 : int.Parse(shortest.AsSpan(e + 1), NumberStyles.AllowLeadingSign, CultureInfo.InvariantCulture);
        int dot = mantissa.IndexOf('.', StringComparison.Ordinal);
        string all = mantissa.Replace(".", "", StringComparison.Ordinal);
        int leading = all.Length - all.TrimStart('0').Length;
        string digits = all.Trim('0');

        // value = 0.digits x 10^point
        int point = (dot < 0 ? mantissa.Length : dot) + exponent - leading;
        return (value < 0 ? "-" : "") + Lay(digits, point);
    }

    private static string Lay(string digits, int point)
    {
        if (point is > MostPlainDigits or <= -MostLeadingZeros)
        {
            StringBuilder text = new(digits, 0, 1, 32);
            if (digits.Length > 1)
            {
                text.Append('.').Append(digits, 1, digits.Length - 1);
            }

            return text.Append('e').Append(point > 0 ? "+" : "").Append(CultureInfo.InvariantCulture, $"{point - 1}").ToString();
        }

        if (point <= 0)
        {
            return "0." + new string('0', -point) + digits;
        }

        return digits.Length <= point
            ? digits + new string('0', point - digits.Length)
            : digits[..point] + "." + digits[point..];
    }
}

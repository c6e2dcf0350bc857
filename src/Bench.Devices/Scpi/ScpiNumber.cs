using System.Globalization;

namespace Bench.Devices.Scpi;

/// <summary>A number in an answer, or what an instrument says instead of one.</summary>
/// <param name="Value">The number; 0 when there is none.</param>
/// <param name="Instead">Why there is none, in plain words; null when there is one.</param>
public readonly record struct ScpiNumber(double Value, string? Instead)
{
    /// <summary>What is answered for plus infinity, over range (SCPI-1999 volume 1, 7.2.1.4; from memory).</summary>
    public const double Infinity = 9.9e37;

    /// <summary>What is answered for "not a number" (SCPI-1999 volume 1, 7.2.1.5; from memory).</summary>
    public const double NotANumber = 9.91e37;

    // Both are printed with as many digits as an instrument likes; no measurement is of this size.
    private const double LeastSpecial = 9.8e37;
    private const double BetweenSpecial = 9.905e37;

    /// <summary>Whether there is a number.</summary>
    public bool Ok => Instead is null;

    /// <summary>Reads an answer: integer, fixed point or exponent form, with or without sign (IEEE 488.2, 8.7.2 to 8.7.4).</summary>
    /// <returns>False when the text is no such number.</returns>
    public static bool TryParse(string text, out ScpiNumber number)
    {
        const NumberStyles Forms =
            NumberStyles.AllowLeadingSign | NumberStyles.AllowDecimalPoint | NumberStyles.AllowExponent | NumberStyles.AllowLeadingWhite | NumberStyles.AllowTrailingWhite;
        bool digits = text.AsSpan().ContainsAnyInRange('0', '9');
        if (!digits || !double.TryParse(text, Forms, CultureInfo.InvariantCulture, out double value) || !double.IsFinite(value))
        {
            number = default;
            return false;
        }

        number = Math.Abs(value) < LeastSpecial ? new ScpiNumber(value, null)
            : value > BetweenSpecial ? new ScpiNumber(0, "it has no valid reading (9.91E37)")
            : new ScpiNumber(0, value > 0 ? "over range (9.9E37)" : "below range (-9.9E37)");
        return true;
    }

    /// <summary>A number as a parameter or answer.</summary>
    public static string Text(double value) => value.ToString("0.######E+00", CultureInfo.InvariantCulture);
}

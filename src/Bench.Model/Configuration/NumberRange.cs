using System.Globalization;

namespace Bench.Model.Configuration;

/// <summary>Which numbers are allowed.</summary>
/// <param name="Least">Least.</param>
/// <param name="Most">Greatest.</param>
/// <param name="IsOpen">Whether the ends themselves are excluded.</param>
internal readonly record struct NumberRange(double Least, double Most, bool IsOpen = false)
{
    /// <summary>Any finite number.</summary>
    public static NumberRange Any => new(double.MinValue, double.MaxValue);

    /// <summary>A share or probability, ends included.</summary>
    public static NumberRange Share => new(0, 1);

    /// <summary>A share or probability, neither 0 nor 1.</summary>
    public static NumberRange InnerShare => new(0, 1, IsOpen: true);

    /// <summary>Above 0, at most <paramref name="most"/>.</summary>
    public static NumberRange Positive(double most) => new(double.Epsilon, most);

    /// <summary>Whether a number is allowed; NaN never is.</summary>
    public bool Contains(double value) =>
        IsOpen ? value > Least && value < Most : value >= Least && value <= Most;

    /// <summary>In words.</summary>
    public override string ToString()
    {
        string least = Least.ToString(CultureInfo.InvariantCulture);
        string most = Most.ToString(CultureInfo.InvariantCulture);
        return this == Any ? "a finite number is allowed"
            : IsOpen ? $"a number between {least} and {most}, neither included, is allowed"
            : Least == double.Epsilon ? $"a number above 0, at most {most}, is allowed"
            : $"a number from {least} to {most} is allowed";
    }
}

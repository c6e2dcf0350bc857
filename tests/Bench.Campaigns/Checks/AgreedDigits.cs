namespace Bench.Campaigns.Checks;

/// <summary>
/// Number of digits in which a computed value agrees with a certified one: the log relative error -log10(|x - c|/|c|)
/// (McCullough 1998, "Assessing the Reliability of Statistical Software: Part I", The American Statistician 52(4), 358-366).
/// </summary>
public static class AgreedDigits
{
    /// <summary>Digits a double holds; equal values agree in so many.</summary>
    public const double Most = 15;

    /// <summary>The digits, 0 to <see cref="Most"/>; of a certified 0 the log absolute error; 0 for what is no number.</summary>
    public static double Of(double got, double expected)
    {
        if (!double.IsFinite(got) || !double.IsFinite(expected))
        {
            return 0;
        }

        double error = Math.Abs(got - expected) / (expected == 0 ? 1 : Math.Abs(expected));
        return error == 0 ? Most : Math.Clamp(-Math.Log10(error), 0, Most);
    }
}

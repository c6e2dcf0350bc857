namespace Bench.Campaigns.Checks;

/// <summary>One number of this program held against one from outside it.</summary>
/// <param name="Method">What is computed.</param>
/// <param name="Case">On which data.</param>
/// <param name="Source">Where the expected number is from.</param>
/// <param name="Expected">The number expected.</param>
/// <param name="Got">The number this program gives.</param>
/// <param name="LeastDigits">Digits that must agree: those published, less what the data or the method are known to cost.</param>
public sealed record Check(string Method, string Case, string Source, double Expected, double Got, double LeastDigits)
{
    /// <summary>Digits that agree.</summary>
    public double Digits => AgreedDigits.Of(Got, Expected);

    /// <summary>Whether enough digits agree.</summary>
    public bool Holds => Digits >= LeastDigits;
}

namespace Bench.Campaigns.Checks;

/// <summary>One number of this program to be held against what another program says in the same run.</summary>
/// <param name="Method">What is computed.</param>
/// <param name="Case">On which data.</param>
/// <param name="Expression">What the other program is asked, in its own language; one number.</param>
/// <param name="Got">The number this program gives.</param>
/// <param name="LeastDigits">Digits that must agree.</param>
internal sealed record LiveCheck(string Method, string Case, string Expression, double Got, double LeastDigits);

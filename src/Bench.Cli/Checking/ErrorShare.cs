using Bench.Analysis.Statistics;

namespace Bench.Cli.Checking;

/// <summary>Share of failed reads with its exact 95 % interval (Clopper and Pearson 1934).</summary>
internal sealed record ErrorShare(int Errors, int Reads, double Share, double Lower, double Upper)
{
    /// <summary>Each side of a 95 % interval.</summary>
    private const double OneSided = 0.975;

    /// <summary>The share from counts.</summary>
    /// <param name="errors">Failed reads.</param>
    /// <param name="reads">All reads, at least 1.</param>
    public static ErrorShare Of(int errors, int reads) => new(
        errors, reads, (double)errors / reads, BinomialLimits.Lower(errors, reads, OneSided), BinomialLimits.Upper(errors, reads, OneSided));

    /// <inheritdoc/>
    public override string ToString() => FormattableString.Invariant(
        $"{Errors} of {Reads} reads failed (95 %: {100 * Lower:0.0} to {100 * Upper:0.0} %)");
}

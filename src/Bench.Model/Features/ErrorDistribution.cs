namespace Bench.Model.Features;

/// <summary>The distribution a contribution to uncertainty is taken to have (JCGM 100:2008, 4.3 and 4.4).</summary>
public enum ErrorDistribution
{
    /// <summary>Normal.</summary>
    Normal,

    /// <summary>Rectangular: half-width a gives a/√3.</summary>
    Rectangular,

    /// <summary>Triangular: half-width a gives a/√6; the sum of two equal rectangular ones.</summary>
    Triangular,

    /// <summary>Beta, of a share of counted events.</summary>
    Beta,
}

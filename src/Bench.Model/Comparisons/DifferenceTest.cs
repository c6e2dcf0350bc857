namespace Bench.Model.Comparisons;

/// <summary>How a difference is held against chance.</summary>
public enum DifferenceTest
{
    /// <summary>Against its expanded uncertainty (E_n; ISO 13528, ISO/IEC 17043).</summary>
    Measured,

    /// <summary>Two shares of counted trials: Fisher's exact test.</summary>
    Share,

    /// <summary>Two rates of events: exact test of how they fall to the two runs, given how many there are.</summary>
    Rate,

    /// <summary>Not at all.</summary>
    None,
}

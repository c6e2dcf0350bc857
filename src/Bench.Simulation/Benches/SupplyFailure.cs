namespace Bench.Simulation.Benches;

/// <summary>How a programmable supply fails.</summary>
public enum SupplyFailure
{
    /// <summary>It does not.</summary>
    None,

    /// <summary>It refuses whatever is set or switched (-221), as one locked at its panel does.</summary>
    Refuses,

    /// <summary>It takes a setting without a word and keeps the one of before.</summary>
    KeepsSetting,

    /// <summary>It gives 1.4 times what it is set to.</summary>
    TooHigh,
}

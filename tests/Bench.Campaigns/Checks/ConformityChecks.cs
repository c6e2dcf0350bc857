using Bench.Analysis.Uncertainty;

namespace Bench.Campaigns.Checks;

/// <summary>JCGM 106: specific and global risks.</summary>
internal static class ConformityChecks
{
    private const string Computed = "R 4.2.2 integrate; scipy agrees";

    private static readonly (string Case, string Source, double Value, double U, double? Lower, double? Upper, double Conforms, double Digits)[] Specific =
    [
        ("N(10, 0.4), 9 to 11", "R 4.2.2 pnorm", 10, 0.4, 9, 11, 1 - 0.01241933065, 10),
        ("N(10.5, 0.4), 9 to 11", "R 4.2.2 pnorm", 10.5, 0.4, 9, 11, 1 - 0.105738191, 9),
        ("N(12, 0.4), 9 to 11", "R 4.2.2 pnorm", 12, 0.4, 9, 11, 1 - 0.9937903347, 8),
        ("zener diode, JCGM 106 7.3", "Φ(1.4), R", -5.47, 0.05, null, -5.40, 0.9192433408, 9),
        ("speed, JCGM 106 7.4 (inputs from memory)", "R 4.2.2 pnorm", 107, 2.14, 100, null, 0.9994642136, 9),
        ("at AL = U limit - 2 u, ILAC-G8", "R 4.2.2 pnorm", 1 - 0.2, 0.1, null, 1, 1 - 0.02275013195, 9),
    ];

    // mean, spread, u, limits, guard: R_C, R_P.
    private static readonly (string Case, string Source, double Mean, double Spread, double U, double Limit, double Guard, double Consumer, double Producer, double Digits)[] Global =
    [
        ("resistor, JCGM 106 9.5.3 (inputs from memory)", Computed, 1500, 0.12, 0.04, 0.2, 0.02, 0.009878291522, 0.069026510461, 9),
        ("resistor, no guard band", Computed, 1500, 0.12, 0.04, 0.2, 0, 0.01894220672, 0.03720780018, 9),
        ("resistor, guard 0.04", Computed, 1500, 0.12, 0.04, 0.2, 0.04, 0.004334072222, 0.114656578408, 9),
        ("limit 2, u 0.25", "Deaver, table of guard-banded risks", 0, 1, 0.25, 2, 0, 0.008, 0.015, 1.9),
        ("limit 2, u 0.25", Computed, 0, 1, 0.25, 2, 0, 0.008006084834, 0.014850884211, 9),
        ("limit 2, u 0.5, accepted to 1.82", Computed, 0, 1, 0.5, 2, 0.18, 0.008051608545, 0.066106452159, 9),
        ("limit 2.5, u 1", Computed, 0, 1, 1, 2.5, 0, 0.004723566502, 0.069404107594, 9),
    ];

    /// <summary>The checks.</summary>
    public static IEnumerable<Check> All()
    {
        foreach (var (at, source, value, u, lower, upper, conforms, digits) in Specific)
        {
            yield return new("conformity probability", at, source, conforms, Conformity.Probability(value, u, lower, upper), digits);
        }

        foreach (var (at, source, mean, spread, u, limit, guard, consumer, producer, digits) in Global)
        {
            GlobalRisk risk = GlobalRisk.Of(mean, spread, u, mean - limit, mean + limit, guard);
            yield return new("consumer's risk", at, source, consumer, risk.Consumer, digits);
            yield return new("producer's risk", at, source, producer, risk.Producer, digits);
        }

        GlobalRisk resistor = GlobalRisk.Of(1500, 0.12, 0.04, 1499.8, 1500.2, 0.02);
        yield return new("share conforming", "resistor", Computed, 0.904419295454, resistor.Conforming, 11);
        yield return new("share accepted", "resistor", Computed, 0.845271076515, resistor.Accepted, 11);
    }
}

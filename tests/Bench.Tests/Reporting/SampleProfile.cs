using Bench.Model.Profiles;

namespace Bench.Tests.Reporting;

/// <summary>The invented nutrient diverter, as far as a packet shows it.</summary>
internal static class SampleProfile
{
    public static Profile Diverter() => Analysis.Synthetic.Diverter.Profile with
    {
        Version = "1.2.0",
        Author = "test engineering",
        Approval = "quality, 2026-03-02",
        PartNumbers = ["ND4-24"],
        Routine = [],
        Limits =
        [
            Limit("ring.dead_counts", null, 0, DecisionRule.Simple, Severity.Repair, "replace-ring"),
            Limit("ring.weak_counts", null, 0, DecisionRule.Simple, Severity.Repair, "clean-ring"),
            Limit("ring.coverage", 0.98, null, DecisionRule.Simple, Severity.Hold),
            Limit("landing.error_counts", -6, 6, DecisionRule.Guarded, Severity.Repair, "set-zero"),
            Limit("index.shift_counts", -4, 4, DecisionRule.Guarded, Severity.Repair, "tighten-coupling"),
            Limit("current.running_a", 0.14, 0.33, DecisionRule.Guarded, Severity.Repair, "clean-valve"),
            Limit("current.tight_spot_ratio", null, 1.6, DecisionRule.Guarded, Severity.Repair, "clean-valve"),
            Limit("bench.supply_open_v", 20.4, 28.8, DecisionRule.Guarded, Severity.Hold),
            Limit("demonstration.failed_moves", null, 0, DecisionRule.Simple, Severity.Note),
        ],
        Demonstration = new()
        {
            P0 = 0.005,
            P1 = 0.08,
            Alpha = 0.05,
            Beta = 0.05,
            MostMoves = 120,
            RingCoverage = 0.98,
            MissedSensorAlpha = 0.05,
        },
        Economics = new() { Currency = "crowns", ReplacementCost = 420, LabourPerHour = 60, GreatestRepairFraction = 0.5 },
        Remedies = [],
        FaultModes =
        [
            Mode("none", "no fault", 0.4, null, null, false),
            Mode("dead-sensors", "dead sensors", 0.2, "Turn the shaft by hand over counts 317 to 322 and watch the sensor's output.", "The output stays low over a sound magnet.", true),
            Mode("contaminated-sensors", "dirt on the ring", 0.2, "Open the cover and look at the ring under a lamp.", "A film or crust over the weak arc, gone after wiping.", true),
            Mode("coupling-slip", "coupling slips", 0.1, "Mark shaft and encoder with a pen and turn ten times.", "The marks part.", true),
            Mode("worn-brushes", "worn brushes", 0.1, null, null, false),
        ],
        Sha256 = new string('5', 64),
        Text = "family = \"nutrient-diverter-4\"",
    };

    private static Limit Limit(string feature, double? lower, double? upper, DecisionRule rule, Severity severity, string? remedy = null) =>
        new() { Feature = feature, Lower = lower, Upper = upper, Rule = rule, Severity = severity, Remedy = remedy };

    private static FaultMode Mode(string id, string name, double prior, string? check, string? expect, bool explains) => new()
    {
        Id = id,
        Name = name,
        Prior = prior,
        Shows = new Dictionary<string, double>(),
        NextCheck = check,
        Expect = expect,
        ExplainsFeedbackFault = explains,
    };
}

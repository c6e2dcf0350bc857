using Bench.Model.BenchFiles;
using Bench.Model.Moves;
using Bench.Model.Profiles;
using Bench.Model.Rings;
using Bench.Model.Runs;

namespace Bench.Tests.Analysis.Synthetic;

/// <summary>A made-up diverter and bench to try the analysis on.</summary>
internal static class Diverter
{
    public static Profile Profile { get; } = new()
    {
        Family = "nutrient-diverter-4",
        Title = "Nutrient diverter, four ports",
        Version = "1",
        Author = "engineer",
        PartNumbers = [],
        Ring = new Ring(800),
        Drive = DriveKind.Reversing,
        Feedback = FeedbackKind.Ring,
        IndexWidthCounts = 20,
        Ports = [new("A", 0), new("B", 200), new("C", 400), new("D", 600)],
        Electrical = new ElectricalData
        {
            SupplyNominalV = 24,
            SupplyMinV = 20.4,
            SupplyMaxV = 28.8,
            WindingOhm = 12,
            TorqueConstantNmPerA = 0.045,
            NoLoadCurrentA = 0.05,
            StallCurrentA = 2.0,
            RunningCurrentA = 0.22,
            GearRatio = 230,
            RunningSpeedCountsPerS = 263,
        },
        Safety = new SafetyLimits
        {
            OverCurrentA = 2.6,
            DeadTimeMs = 60,
            NoMotionMs = 400,
            FeedbackLostMs = 120,
            MostOnMs = 9000,
            MostDuty = 0.85,
            DutyWindowS = 60,
        },
        Routine = [new Stage { Kind = StageKind.Supply, MostS = 5 }],
        Limits =
        [
            Limit("bench.supply_open_v", 20.4, 28.8, DecisionRule.Guarded, Severity.Hold),
            Limit("bench.link_error_share", null, 0.01, DecisionRule.Simple, Severity.Hold),
            Limit("bench.calibration_overdue_days", null, 0, DecisionRule.Simple, Severity.Hold),
            Limit("feedback.silent_share", null, 0.01, DecisionRule.Guarded, Severity.Repair, "mend-connector"),
            Limit("feedback.dropouts", null, 0, DecisionRule.Simple, Severity.Repair, "mend-connector"),
            Limit("feedback.off_ring", null, 0, DecisionRule.Simple, Severity.Repair, "change-sensors"),
            Limit("feedback.wander_counts", null, 1, DecisionRule.Simple, Severity.Repair, "change-sensors"),
            Limit("motion.locked_moves", null, 0, DecisionRule.Simple, Severity.Scrap),
            Limit("motion.no_current_moves", null, 0, DecisionRule.Simple, Severity.Scrap),
            Limit("motion.count_still_moves", null, 0, DecisionRule.Simple, Severity.Repair, "change-sensors"),
            Limit("landing.error_counts", -4, 4, DecisionRule.Guarded, Severity.Repair, "change-gears"),
            Limit("index.reversal_counts", null, 4, DecisionRule.Guarded, Severity.Repair, "change-coupling"),
            Limit("index.shift_counts", null, 4, DecisionRule.Guarded, Severity.Repair, "change-coupling"),
            Limit("index.step_counts", null, 5, DecisionRule.Guarded, Severity.Repair, "change-coupling"),
            Limit("index.drift_counts_per_100_moves", null, 8, DecisionRule.Guarded, Severity.Repair, "change-coupling"),
            Limit("count.jump_counts", null, 8, DecisionRule.Guarded, Severity.Repair, "change-sensors"),
            Limit("ring.dead_counts", null, 0, DecisionRule.Simple, Severity.Repair, "change-sensors"),
            Limit("ring.weak_counts", null, 0, DecisionRule.Simple, Severity.Repair, "clean-sensors"),
            Limit("current.running_a", null, 0.28, DecisionRule.Guarded, Severity.Repair, "change-gears"),
            Limit("current.noise_a", null, 0.02, DecisionRule.Guarded, Severity.Repair, "change-motor"),
            Limit("current.interruptions", null, 0, DecisionRule.Simple, Severity.Repair, "mend-connector"),
            Limit("current.tight_spot_ratio", null, 1.3, DecisionRule.Guarded, Severity.Repair, "change-gears"),
            Limit("winding.resistance_ohm", 9, 17, DecisionRule.Guarded, Severity.Repair, "change-motor"),
        ],
        Demonstration = new Demonstration
        {
            P0 = 0.005,
            P1 = 0.08,
            Alpha = 0.05,
            Beta = 0.05,
            MostMoves = 120,
            RingCoverage = 0.98,
            MissedSensorAlpha = 0.05,
        },
        Economics = new Economics
        {
            Currency = "credits",
            ReplacementCost = 400,
            LabourPerHour = 60,
            GreatestRepairFraction = 0.5,
        },
        Remedies =
        [
            new Remedy { Id = "clean-sensors", Work = "Clean the sensor ring.", PartsCost = 0, Minutes = 20, Order = 1 },
            new Remedy { Id = "mend-connector", Work = "Renew the feedback connector.", PartsCost = 5, Minutes = 15, Order = 2 },
            new Remedy { Id = "change-sensors", Work = "Change the sensor ring.", PartsCost = 60, Minutes = 40, Order = 3 },
            new Remedy { Id = "change-coupling", Work = "Change the coupling.", PartsCost = 12, Minutes = 30, Order = 4 },
            new Remedy { Id = "change-gears", Work = "Change the gear stage.", PartsCost = 90, Minutes = 60, Order = 5 },
            new Remedy { Id = "change-motor", Work = "Change the motor.", PartsCost = 160, Minutes = 60, Order = 6 },
        ],
        FaultModes =
        [
            Mode("none", "No fault", 0.5, false),
            Mode("dead-sensors", "Dead sensors", 0.1, true, ("ring.dead_counts", 0.95)),
            Mode("contaminated-sensors", "Dirt on the sensors", 0.1, true, ("ring.weak_counts", 0.95), ("ring.dead_counts", 0.1)),
            Mode("intermittent-connector", "Loose connector", 0.1, true, ("feedback.dropouts", 0.9), ("feedback.silent_share", 0.5)),
            Mode("coupling-slip", "Slipping coupling", 0.1, false, ("index.shift_counts", 0.8), ("index.step_counts", 0.8), ("index.drift_counts_per_100_moves", 0.5)),
            Mode("seized-valve", "Seized valve", 0.05, false, ("motion.locked_moves", 0.99)),
            Mode("seized-motor", "Seized motor", 0.05, false, ("motion.locked_moves", 0.99)),
        ],
        Sha256 = "",
        Text = "",
    };

    public static BenchSnapshot Bench { get; } = new()
    {
        LastDroveHours = 0.1,
        Name = "bench-1",
        Position = "left",
        SupplyCurrentLimitA = 3,
        Current = Meter(0.0005, 0.002),
        Voltage = Meter(0.01, 0.03),
        HasIndex = true,
        HasEmergencyStop = true,
        Sha256 = "",
    };

    private static MeterDescription Meter(double scale, double uncertainty) => new()
    {
        Channel = new Channel("board", RegisterTable.InputRegister, 0),
        Scale = scale,
        StandardUncertainty = uncertainty,
        CalibratedOn = new DateOnly(2026, 1, 10),
        CalibrationDueOn = new DateOnly(2027, 1, 10),
        Certificate = "C-1",
    };

    private static Limit Limit(string feature, double? lower, double? upper, DecisionRule rule, Severity severity, string? remedy = null) =>
        new() { Feature = feature, Lower = lower, Upper = upper, Rule = rule, Severity = severity, Remedy = remedy };

    private static FaultMode Mode(string id, string name, double prior, bool explains, params (string Feature, double Show)[] shows) => new()
    {
        Id = id,
        Name = name,
        Prior = prior,
        Shows = shows.ToDictionary(s => s.Feature, s => s.Show),
        ExplainsFeedbackFault = explains,
        NextCheck = id.StartsWith("seized", StringComparison.Ordinal) ? "Take the motor off and turn the valve by hand." : null,
        Expect = id == "seized-valve" ? "it does not turn." : id == "seized-motor" ? "it turns freely." : null,
    };
}

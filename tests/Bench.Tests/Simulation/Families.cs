using Bench.Model.Profiles;
using Bench.Model.Rings;

namespace Bench.Tests.Simulation;

/// <summary>The two families of the demo world as far as a simulation needs them: nominal data, ports, index.</summary>
internal static class Families
{
    public static Profile Diverter { get; } = Make(
        "nutrient-diverter-4", DriveKind.Reversing, 800, 20, [("A", 0), ("B", 200), ("C", 400), ("D", 600)],
        Electrical(12.0, 0.045, 0.05, 2.0, 0.22, 230, 263));

    public static Profile Selector { get; } = Make(
        "zone-selector-3", DriveKind.Single, 720, 18, [("1", 0), ("2", 240), ("3", 480)],
        Electrical(18.0, 0.052, 0.035, 1.333, 0.15, 190, 247));

    private static ElectricalData Electrical(
        double ohm, double k, double noLoad, double stall, double running, double gear, double speed) => new()
    {
        SupplyNominalV = 24.0,
        SupplyMinV = 20.4,
        SupplyMaxV = 28.8,
        WindingOhm = ohm,
        TorqueConstantNmPerA = k,
        NoLoadCurrentA = noLoad,
        StallCurrentA = stall,
        RunningCurrentA = running,
        GearRatio = gear,
        RunningSpeedCountsPerS = speed,
    };

    private static Profile Make(
        string family, DriveKind drive, int counts, double index, (string Name, int Count)[] ports, ElectricalData electrical) => new()
    {
        Family = family,
        Title = family,
        Version = "1",
        Author = "engineer",
        PartNumbers = ["ND4-100"],
        Ring = new Ring(counts),
        Drive = drive,
        Feedback = FeedbackKind.Ring,
        IndexWidthCounts = index,
        Ports = [.. ports.Select(p => new Port(p.Name, p.Count))],
        Electrical = electrical,
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
        Routine = [],
        Limits = [],
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
        Economics = new Economics { Currency = "EUR", ReplacementCost = 1, LabourPerHour = 1, GreatestRepairFraction = 0.5 },
        Remedies = [],
        FaultModes = [],
        Sha256 = "",
        Text = "",
    };
}

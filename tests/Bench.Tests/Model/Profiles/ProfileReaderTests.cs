using System.Security.Cryptography;
using Bench.Model.Features;
using Bench.Model.Moves;
using Bench.Model.Profiles;
using Bench.Tests.Model.Configuration;

namespace Bench.Tests.Model.Profiles;

public class ProfileReaderTests
{
    public static TheoryData<string> Shipped => [.. RepositoryFiles.In("profiles", ".toml")];

    [Theory]
    [MemberData(nameof(Shipped))]
    public void Read_EveryFileInProfiles_IsValidAndNamedAfterItsFamily(string path)
    {
        byte[] bytes = File.ReadAllBytes(Path.Combine(RepositoryFiles.Root, path));

        Profile profile = ProfileReader.Read(bytes, path);

        Assert.Equal(Path.GetFileNameWithoutExtension(path), profile.Family);
        Assert.Equal(Convert.ToHexStringLower(SHA256.HashData(bytes)), profile.Sha256);
        Assert.Equal(RepositoryFiles.Text(path), profile.Text);
    }

    [Fact]
    public void Read_Diverter_GivesItsNumbers()
    {
        Profile profile = Read("nutrient-diverter-4");

        Assert.Equal((800, DriveKind.Reversing, 20.0), (profile.Ring.Counts, profile.Drive, profile.IndexWidthCounts));
        Assert.Equal([new Port("A", 0), new("B", 200), new("C", 400), new("D", 600)], profile.Ports);
        Assert.Equal(
            new ElectricalData
            {
                SupplyNominalV = 24,
                SupplyMinV = 20.4,
                SupplyMaxV = 28.8,
                WindingOhm = 12,
                TorqueConstantNmPerA = 0.045,
                NoLoadCurrentA = 0.05,
                StallCurrentA = 2,
                RunningCurrentA = 0.22,
                GearRatio = 230,
                RunningSpeedCountsPerS = 263,
            },
            profile.Electrical);
        Assert.Equal(
            new SafetyLimits
            {
                OverCurrentA = 2.6,
                DeadTimeMs = 60,
                NoMotionMs = 400,
                FeedbackLostMs = 120,
                MostOnMs = 9000,
                MostDuty = 0.85,
                DutyWindowS = 60,
                Winding = new WindingLimits { ThermalKPerW = 12, TimeConstantS = 20, Housing = new HousingHeat(32, 300), MostCelsius = 110, AmbientCelsius = 40 },
            },
            profile.Safety);
        Assert.Equal(
            new Demonstration
            {
                P0 = 0.005,
                P1 = 0.08,
                Alpha = 0.05,
                Beta = 0.05,
                MostMoves = 120,
                RingCoverage = 0.98,
                MissedSensorAlpha = 0.002,
            },
            profile.Demonstration);
        Assert.Equal(
            [StageKind.Supply, StageKind.Homing, StageKind.PortMoves, StageKind.Endurance, StageKind.Connector, StageKind.Starts, StageKind.LowSupply, StageKind.HighSupply, StageKind.Warm, StageKind.Uncoupled], profile.Routine.Select(stage => stage.Kind));
        Assert.Equal(new Stage { Kind = StageKind.Homing, MostS = 60, Revolutions = 2, SettleMs = 350 }, profile.Routine[1]);
        Assert.Equal(
            new Limit
            {
                Feature = "index.reversal_counts",
                Upper = 6,
                Rule = DecisionRule.Guarded,
                Severity = Severity.Repair,
                Remedy = "exchange-coupling",
            },
            profile.Limits.Single(limit => limit.Feature == "index.reversal_counts"));
        FaultMode slip = profile.FaultModes.Single(mode => mode.Id == "coupling-slip");
        Assert.Equal(0.92, slip.Shows["index.step_counts"]);
        Assert.True(slip.ExplainsFeedbackFault);
    }

    // What is dearer than half a replacement is scrap. By hand: parts + minutes / 60 x 54.
    [Theory]
    [InlineData("nutrient-diverter-4", 155, "exchange-gear-train", 178.5, "exchange-ring-and-seal", 164.5)]
    [InlineData("zone-selector-3", 90, "exchange-motor", 100.0, "exchange-gear-train", 134.5, "exchange-ring-and-seal", 137.5)]
    public void Read_Shipped_OnlyTheDearRemediesExceedTheGreatestRepair(string family, double most, params object[] dear)
    {
        Profile profile = Read(family);
        Economics economics = profile.Economics;

        Assert.Equal(most, economics.ReplacementCost * economics.GreatestRepairFraction);
        Assert.Equal(
            dear,
            profile.Remedies
                .Select(remedy => (remedy.Id, Cost: remedy.PartsCost + (remedy.Minutes / 60 * economics.LabourPerHour)))
                .Where(remedy => remedy.Cost > most)
                .SelectMany(remedy => new object[] { remedy.Id, remedy.Cost }));
    }

    [Theory]
    [MemberData(nameof(Shipped))]
    public void Read_Shipped_EveryFaultShowsInALimitAndHasACheck(string path)
    {
        Profile profile = ProfileReader.Read(RepositoryFiles.Text(path), path);

        HashSet<string> limited = [.. profile.Limits.Select(limit => limit.Feature), .. profile.Inspection.Select(item => item.Feature)];
        foreach (FaultMode mode in profile.FaultModes.Where(mode => mode.Id != "none"))
        {
            Assert.NotEmpty(mode.Shows);
            Assert.All(mode.Shows.Keys, feature => Assert.Contains(feature, limited));
            Assert.NotNull(mode.NextCheck);
            Assert.NotNull(mode.Expect);
        }

        Assert.All(profile.Limits, limit => Assert.True(FeatureCatalog.Knows(limit.Feature)));
    }

    // What each fault most likely looks like, weighed by hand with Bayes' rule: the profile must name the fault itself,
    // but where two look alike by nature and the check by hand decides.
    [Theory]
    [InlineData("nutrient-diverter-4")]
    [InlineData("zone-selector-3", "backlash", "none")]
    public void Read_Shipped_EveryFaultIsToldFromTheOthersByWhatItShows(string family, params string[] alike)
    {
        Profile profile = Read(family);
        foreach (FaultMode mode in profile.FaultModes)
        {
            HashSet<string> failing = [.. mode.Shows.Where(show => show.Value >= 0.5).Select(show => show.Key)];
            FaultMode likeliest = profile.FaultModes.MaxBy(rival => profile.Limits.Aggregate(rival.Prior, (p, limit) =>
            {
                double show = rival.Shows.GetValueOrDefault(limit.Feature, Profile.BackgroundShow);
                return p * (failing.Contains(limit.Feature) ? show : 1 - show);
            }))!;

            int at = Array.IndexOf(alike, mode.Id);
            Assert.Equal(at >= 0 && at % 2 == 0 ? alike[at + 1] : mode.Id, likeliest.Id);
        }
    }

    // Remedies that one fault calls for together must not cost more than the unit is worth: slip also drifts, silence
    // begins with a dropout, brushes that lift add resistance.
    [Theory]
    [InlineData("nutrient-diverter-4", "exchange-coupling", "exchange-sensor-ring")]
    [InlineData("nutrient-diverter-4", "exchange-connector", "exchange-sensor-ring")]
    [InlineData("nutrient-diverter-4", "exchange-connector", "clean-contacts")]
    [InlineData("nutrient-diverter-4", "exchange-motor", "clean-contacts")]
    [InlineData("zone-selector-3", "exchange-coupling", "exchange-sensor-ring")]
    [InlineData("zone-selector-3", "exchange-connector", "exchange-sensor-ring")]
    [InlineData("zone-selector-3", "exchange-connector", "clean-contacts")]
    public void Read_Shipped_RemediesOfOneFaultAreWorthItTogether(string family, string first, string second)
    {
        Profile profile = Read(family);
        Economics economics = profile.Economics;

        double together = profile.Remedies.Where(remedy => remedy.Id == first || remedy.Id == second)
            .Sum(remedy => remedy.PartsCost + (remedy.Minutes / 60 * economics.LabourPerHour));

        Assert.InRange(together, 1, economics.GreatestRepairFraction * economics.ReplacementCost);
    }

    [Fact]
    public void Read_ShowsQuotedOrDotted_IsTheSame()
    {
        string quoted = SmallProfile.Text.Replace("feedback.dropouts = 0.95", "\"feedback.dropouts\" = 0.95", StringComparison.Ordinal);

        Assert.Equal(
            ProfileReader.Read(SmallProfile.Text, "p.toml").FaultModes[1].Shows, ProfileReader.Read(quoted, "p.toml").FaultModes[1].Shows);
    }

    [Fact]
    public void Read_PortsInAnyOrder_AreSortedByCount()
    {
        string text = SmallProfile.Text.Replace("count = 0", "count = 60", StringComparison.Ordinal);

        Assert.Equal([new Port("B", 50), new Port("A", 60)], ProfileReader.Read(text, "p.toml").Ports);
    }

    private static Profile Read(string family) => ProfileReader.Read(RepositoryFiles.Text($"profiles/{family}.toml"), family);

    [Fact]
    public void Read_IncrementalFeedback_IsTaken() =>
        Assert.Equal(
            FeedbackKind.Incremental,
            ProfileReader.Read(Refusal.Break(SmallProfile.Text, "feedback = \"ring\"", "feedback = \"incremental\""), "p.toml").Feedback);
}

using Bench.Model.Profiles;
using Bench.Simulation.Chance;
using Bench.Simulation.Units;

namespace Bench.Tests.Simulation.Units;

public class PlantTests
{
    private static readonly SupplyDesign Supply24 = new(24.0, SupplyDesign.HealthySourceOhm);

    public static TheoryData<string> Names => ["diverter", "selector"];

    // The families' own nominal data: running current, speed, stall current; coast as the bench is built.
    [Theory]
    [MemberData(nameof(Names))]
    public void NominalUnit_TurningBetweenPorts_HasTheFamilysCurrentAndSpeed(string name)
    {
        Profile family = Family(name);
        UnitDesign unit = NominalUnit.Of(family);
        Plant plant = Make(unit with { Valve = unit.Valve with { RoughnessShare = 0.0 } }, 0.0);
        plant.CommandUp(true);
        (double mean, double speed) = Between(plant, 30.0, 170.0);
        Assert.Equal(family.Electrical.RunningCurrentA, mean, 0.01 * family.Electrical.RunningCurrentA);
        Assert.Equal(family.Electrical.RunningSpeedCountsPerS, speed, 0.015 * family.Electrical.RunningSpeedCountsPerS);
    }

    [Theory]
    [MemberData(nameof(Names))]
    public void NominalUnit_SwitchedOffAtSpeed_CoastsAboutSevenCounts(string name)
    {
        foreach (double off in new[] { 100.0, 195.0 })
        {
            Plant plant = Make(NominalUnit.Of(Family(name)), 0.0);
            plant.CommandUp(true);
            RunTo(plant, off);
            double from = plant.EncoderPosition;
            plant.CommandUp(false);
            plant.AdvanceTo(plant.TimeS + 1.0);
            Assert.InRange(plant.EncoderPosition - from, 6.0, 7.6);
            Assert.Equal(0.0, plant.MotorRadPerS);
        }
    }

    [Theory]
    [MemberData(nameof(Names))]
    public void Spread_ManyUnits_StayNearTheFamilysNumbers(string name)
    {
        Profile family = Family(name);
        double[] currents = [.. Enumerable.Range(1, 40).Select(seed =>
        {
            Plant plant = Make(NominalUnit.Of(family).Spread((ulong)seed), 0.0);
            plant.CommandUp(true);
            return Between(plant, 30.0, 170.0).MeanA;
        })];
        double nominal = family.Electrical.RunningCurrentA;
        Assert.Equal(nominal, currents.Average(), 0.04 * nominal);
        Assert.All(currents, c => Assert.InRange(c, 0.78 * nominal, 1.22 * nominal));
        Assert.Equal(40, currents.Distinct().Count());
    }

    [Fact]
    public void Plant_PassingAPort_DrawsAboutAThirdMore()
    {
        UnitDesign unit = NominalUnit.Of(Families.Diverter);
        Plant plant = Make(unit with { Valve = unit.Valve with { RoughnessShare = 0.0 } }, 50.0);
        plant.CommandUp(true);
        RunTo(plant, 150.0);
        double between = plant.SupplyCurrentA;
        double most = 0.0;
        while (plant.EncoderPosition < 250.0)
        {
            plant.AdvanceTo(plant.TimeS + 0.001);
            most = Math.Max(most, plant.SupplyCurrentA);
        }

        // The rotor's inertia rounds the peak off: less than the seat's full extra torque, more than half of it.
        Assert.InRange(most / between, 1.18, 1.36);
    }

    [Fact]
    public void Plant_DownRelay_TurnsTheOtherWay()
    {
        Plant plant = Make(NominalUnit.Of(Families.Diverter), 400.0);
        plant.CommandDown(true);
        plant.AdvanceTo(1.0);
        Assert.InRange(plant.EncoderPosition, 400.0 - 270.0, 400.0 - 230.0);
        Assert.True(plant.SupplyCurrentA > 0.15);
    }

    [Fact]
    public void Plant_BothRelays_BrakesAndDrawsNothing()
    {
        Plant plant = Make(NominalUnit.Of(Families.Diverter), 0.0);
        plant.CommandUp(true);
        plant.AdvanceTo(0.5);
        plant.CommandDown(true);
        plant.AdvanceTo(1.5);
        Assert.Equal(0.0, plant.MotorRadPerS);
        Assert.Equal(0.0, plant.SupplyCurrentA, 1e-12);
    }

    [Fact]
    public void Plant_AtRestForAMonth_StandsWhereItStoodAndIsThereAtOnce()
    {
        Plant plant = Make(NominalUnit.Of(Families.Diverter), 0.0);
        plant.CommandUp(true);
        plant.AdvanceTo(1.0);
        plant.CommandUp(false);
        plant.AdvanceTo(2.0);
        double at = plant.EncoderPosition;
        plant.AdvanceTo(30.0 * 24.0 * 3600.0);
        Assert.Equal(at, plant.EncoderPosition);
        Assert.Equal(0.0, plant.SupplyCurrentA, 1e-12);
        Assert.Equal(24.0, plant.TerminalV, 1e-9);
    }

    [Fact]
    public void Plant_AskedOftenOrSeldom_GoesTheSameWay()
    {
        UnitDesign unit = NominalUnit.Of(Families.Diverter).Spread(3);
        Plant often = Make(unit, 10.0);
        Plant seldom = Make(unit, 10.0);
        often.CommandUp(true);
        seldom.CommandUp(true);
        for (int i = 1; i <= 4000; i++)
        {
            often.AdvanceTo(i * 0.00025);
        }

        seldom.AdvanceTo(1.0);
        Assert.Equal(seldom.EncoderPosition, often.EncoderPosition);
        Assert.Equal(seldom.SupplyCurrentA, often.SupplyCurrentA, 1e-12);
    }

    [Fact]
    public void Plant_LoadedSupply_SagsByItsSourceResistance()
    {
        Plant plant = Make(NominalUnit.Of(Families.Diverter), 0.0);
        Assert.Equal(24.0, plant.TerminalV, 1e-12);
        plant.CommandUp(true);
        plant.AdvanceTo(0.4);
        Assert.Equal(24.0 - (0.25 * plant.SupplyCurrentA), plant.TerminalV, 1e-12);
    }

    [Fact]
    public void Plant_StuckRelay_StaysMadeAfterTheCoilGoesOff()
    {
        Plant plant = Make(NominalUnit.Of(Families.Diverter), 0.0);
        plant.CommandUp(true);
        plant.AdvanceTo(0.5);
        plant.StickUp(true);
        plant.CommandUp(false);
        plant.AdvanceTo(2.0);
        Assert.True(plant.MotorRadPerS > 400.0);
        Assert.False(plant.UpCoil);
    }

    [Fact]
    public void Plant_SupplyOpenedByEmergencyStop_CoastsWithoutBrake()
    {
        Plant plant = Make(NominalUnit.Of(Families.Diverter), 0.0);
        plant.CommandUp(true);
        plant.AdvanceTo(0.4);
        double from = plant.EncoderPosition;
        plant.SupplyConnected = false;
        plant.AdvanceTo(2.0);
        Assert.Equal(0.0, plant.MotorRadPerS);
        Assert.InRange(plant.EncoderPosition - from, 15.0, 80.0);
        Assert.Equal(0.0, plant.TerminalV);
    }

    [Fact]
    public void Plant_IndexArc_IsClosedOverItsWidthOncePerTurn()
    {
        Plant plant = Make(NominalUnit.Of(Families.Diverter), 0.0);
        plant.CommandUp(true);
        List<double> closed = [];
        while (plant.ValvePosition < 800.0)
        {
            plant.AdvanceTo(plant.TimeS + 0.001);
            if (plant.IndexClosed)
            {
                closed.Add(plant.ValvePosition);
            }
        }

        Assert.Equal(90.0, closed[0], 0.4);
        Assert.Equal(110.0, closed[^1], 0.4);
    }

    private static Profile Family(string name) => name == "diverter" ? Families.Diverter : Families.Selector;

    private static Plant Make(UnitDesign unit, double start) => new(unit, Supply24, RelayDesign.Usual, start, new SeededRandom(1));

    private static void RunTo(Plant plant, double position)
    {
        while (plant.EncoderPosition < position)
        {
            plant.AdvanceTo(plant.TimeS + Plant.StepS);
        }
    }

    private static (double MeanA, double CountsPerS) Between(Plant plant, double from, double to)
    {
        RunTo(plant, from);
        double start = plant.TimeS;
        double begun = plant.EncoderPosition;
        double sum = 0.0;
        int n = 0;
        while (plant.EncoderPosition < to)
        {
            plant.AdvanceTo(plant.TimeS + Plant.StepS);
            sum += plant.SupplyCurrentA;
            n++;
        }

        return (sum / n, (plant.EncoderPosition - begun) / (plant.TimeS - start));
    }
}

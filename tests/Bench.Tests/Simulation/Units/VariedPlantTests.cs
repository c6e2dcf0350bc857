using Bench.Model.Rings;
using Bench.Simulation.Chance;
using Bench.Simulation.Units;

namespace Bench.Tests.Simulation.Units;

public class VariedPlantTests
{
    private static readonly SupplyDesign Supply24 = new(24.0, SupplyDesign.HealthySourceOhm);
    private static readonly UnitDesign Nominal = NominalUnit.Of(Families.Diverter);

    [Fact]
    public void FrictionLaw_AtRunningSpeedAtRestAndBetween_FollowsStribeck()
    {
        FrictionLaw law = new(StictionShare: 0.4, StribeckRadPerS: 20.0, ViscousShare: 0.3, RunningRadPerS: 500.0);
        Assert.Equal(1.0, law.Factor(500.0), 12);
        Assert.Equal(1.1, law.Factor(0.0), 12);
        Assert.Equal(0.7 + (0.3 * 20.0 / 500.0) + (0.4 / Math.E), law.Factor(-20.0), 12);
    }

    [Fact]
    public void EncoderRing_Eccentric_ReportsTheErrorOfItsPlaceOnceATurn()
    {
        Plant plant = Make(Nominal with { Encoder = new EncoderDesign { Geometry = new(5.0, 0.0, (0.0, 0.0), []) } });
        plant.CommandUp(true);
        for (int ms = 100; ms < 4000; ms++)
        {
            plant.AdvanceTo(ms / 1000.0);
            double seen = plant.EncoderPosition + (5.0 * Math.Sin(2.0 * Math.PI * plant.EncoderPosition / 800.0));
            Assert.InRange(new Ring(800).Difference(plant.ReportedCount, seen), -0.51, 0.51);
        }
    }

    [Fact]
    public void EncoderRing_UnevenSensors_GivesEachItsOwnWidth()
    {
        double[] edges = new double[800];
        edges[30] = 0.25;
        edges[31] = -0.25;
        Plant plant = Make(Nominal with { Encoder = new EncoderDesign { Geometry = new(0.0, 0.0, (0.0, 0.0), edges) } });
        plant.CommandUp(true);
        double[] began = new double[41];
        while (plant.ReportedCount < 40)
        {
            plant.AdvanceTo(plant.TimeS + Plant.StepS);
            int count = plant.ReportedCount;
            began[count] = began[count] == 0.0 ? plant.EncoderPosition : began[count];
        }

        // A step of the plant is a fortieth of a count.
        Assert.Equal(1.0, began[30] - began[29], 0.06);
        Assert.Equal(1.25, began[31] - began[30], 0.06);
        Assert.Equal(0.5, began[32] - began[31], 0.06);
        Assert.Equal(1.25, began[33] - began[32], 0.06);
    }

    [Fact]
    public void Feedback_ThatLatchesFourMillisecondsBefore_ReportsTheCountOfThen()
    {
        Plant late = Make(Nominal with { Feedback = Nominal.Feedback with { LatchS = 0.004 } });
        Plant prompt = Make(Nominal);
        late.CommandUp(true);
        prompt.CommandUp(true);
        for (int ms = 500; ms < 1500; ms++)
        {
            late.AdvanceTo((ms + 4) / 1000.0);
            prompt.AdvanceTo(ms / 1000.0);
            Assert.InRange(prompt.ReportedCount - late.ReportedCount, -1, 1);
            Assert.Equal(late.EncoderPosition, late.ReportedCount + (0.004 * 263), 1.0);
        }
    }

    [Fact]
    public void Supply_WithRipple_ShowsItAt100HzAndNotInAMeanOf20Ms()
    {
        SupplyDesign rippled = Supply24 with { RippleShare = 0.02 };
        Plant five = new(Nominal, rippled, RelayDesign.Usual, 0.0, new SeededRandom(1));
        Plant twenty = new(Nominal, rippled, RelayDesign.Usual, 0.0, new SeededRandom(1), 0.020);
        double[] quick = new double[40];
        for (int ms = 0; ms < 40; ms++)
        {
            five.AdvanceTo(1.0 + (ms / 1000.0));
            twenty.AdvanceTo(1.0 + (ms / 1000.0));
            quick[ms] = five.TerminalV;
            Assert.Equal(24.0, twenty.TerminalV, 6);
        }

        // A mean over half a period keeps 2/pi of the amplitude: 24 V x 0.02 x 0.637 = 0.306 V.
        Assert.InRange(quick.Max(), 24.28, 24.31);
        Assert.Equal(quick[0], quick[10], 6);
    }

    // 2 A through 12 ohm are 48 W; copper gains 0.393 % a kelvin.
    [Fact]
    public void Winding_HeldStill_WarmsAndDrawsLess()
    {
        UnitDesign locked = Nominal with
        {
            Motor = Nominal.Motor with { DryFrictionNm = 1.0, Warming = new WarmingDesign(10.0, 1.0, 20.0) },
        };
        Plant plant = Make(locked);
        plant.CommandUp(true);
        plant.AdvanceTo(0.05);
        double coldOhm = 12.0 * (1.0 + (0.00393 * 10.0));
        Assert.Equal(24.0 / (coldOhm + 0.05 + 0.25), plant.MotorCurrentA, 0.01);
        plant.AdvanceTo(200.0);

        // At its end the rise is the loss times 1 K/W: R = R0 (1 + a (10 + I² R)), I = V / (R + 0.3).
        double ohm = plant.SupplyCurrentA == 0.0 ? 0.0 : (24.0 / plant.SupplyCurrentA) - 0.3;
        Assert.Equal(12.0 * (1.0 + (0.00393 * (10.0 + (plant.SupplyCurrentA * plant.SupplyCurrentA * ohm)))), ohm, 0.02);
        Assert.True(ohm > 13.5);
    }

    [Fact]
    public void Meter_OfSteps_ShowsMultiplesWithItsOffset()
    {
        MeterDesign meter = new() { Offset = 1.5, Step = 2.0 };
        Assert.Equal(0.224, meter.Shown(0.22, 0.004, 0.0), 12);
        Assert.Equal(1.0 + 0.004, new MeterDesign { Drift = 1.0, DriftPeriodS = 400.0 }.Shown(1.0, 0.004, 100.0), 12);
        Assert.Equal(0.2213, new MeterDesign().Shown(0.2213, 0.004, 7.0));
    }

    private static Plant Make(UnitDesign unit) => new(unit, Supply24, RelayDesign.Usual, 0.0, new SeededRandom(1));
}

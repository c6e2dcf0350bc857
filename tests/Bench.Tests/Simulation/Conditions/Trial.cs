using Bench.Model.Profiles;
using Bench.Model.Rings;
using Bench.Simulation.Chance;
using Bench.Simulation.Conditions;
using Bench.Simulation.Units;

namespace Bench.Tests.Simulation.Conditions;

/// <summary>One diverter with a condition, driven upwards.</summary>
internal sealed class Trial
{
    public Trial(string id, ulong seed)
    {
        Profile family = Families.Diverter;
        SeededRandom random = new(seed);
        Installation = ConditionCatalog.Find(id).Apply(
            Installation.Of(NominalUnit.Of(family).Spread(seed)), random.Fork("condition"));
        Plant = new Plant(Installation.Unit, Installation.Supply, RelayDesign.Usual, 50.0, random.Fork("running"));
    }

    public Installation Installation { get; }

    public Plant Plant { get; }

    public Ring Ring => Installation.Unit.Ring;

    public double Behind => Plant.EncoderPosition - Plant.ValvePosition;

    public double BehindBetweenTeeth()
    {
        double before;
        do
        {
            before = Behind;
            Advance(0.01);
        }
        while (Math.Abs(Behind - before) > 1e-9);
        return before;
    }

    public void Advance(double s) => Plant.AdvanceTo(Plant.TimeS + s);

    public void Drive(double s)
    {
        Plant.CommandUp(true);
        Advance(s);
    }

    public void Stop()
    {
        Plant.CommandUp(false);
        Plant.CommandDown(false);
        Advance(0.5);
    }

    public void Turn(double revolutions)
    {
        Plant.CommandUp(true);
        double to = Plant.EncoderPosition + (revolutions * Ring.Counts);
        for (int i = 0; Plant.EncoderPosition < to && i < 1_000_000; i++)
        {
            Advance(0.002);
            if (Plant.TimeS > 5.0 * revolutions + 1.0)
            {
                return;
            }
        }
    }

    public HashSet<int> CountsSeenInTurns(double revolutions)
    {
        HashSet<int> seen = [];
        Plant.CommandUp(true);
        double to = Plant.EncoderPosition + (revolutions * Ring.Counts);
        while (Plant.EncoderPosition < to)
        {
            Advance(0.001);
            seen.Add(Plant.ReportedCount);
        }

        return seen;
    }

    public int DropoutsWithin(double s)
    {
        double end = Plant.TimeS + s;
        int dropouts = 0;
        bool flowed = true;
        while (Plant.TimeS < end)
        {
            Advance(Bench.Simulation.Units.Plant.StepS);
            bool flows = Plant.MotorCurrentA != 0.0;
            dropouts += flowed && !flows ? 1 : 0;
            flowed = flows;
        }

        return dropouts;
    }

    public double PeakInrush()
    {
        Plant.CommandUp(true);
        double most = 0.0;
        for (int i = 0; i < 200; i++)
        {
            Advance(0.001);
            most = Math.Max(most, Plant.SupplyCurrentA);
        }

        return most;
    }

    public double CountsPerS()
    {
        double from = Plant.EncoderPosition;
        Advance(1.0);
        return Plant.EncoderPosition - from;
    }

    public (double Ratio, int At) GreatestRatio(Trial healthy)
    {
        double[] mine = CurrentByCount();
        double[] theirs = healthy.CurrentByCount();
        int at = Enumerable.Range(0, mine.Length).MaxBy(i => mine[i] / theirs[i]);
        return (mine[at] / theirs[at], at);
    }

    private double[] CurrentByCount()
    {
        double[] current = new double[Ring.Counts];
        Plant.CommandUp(true);
        Advance(0.5);
        double to = Plant.EncoderPosition + (1.05 * Ring.Counts);
        while (Plant.EncoderPosition < to)
        {
            Advance(0.0005);
            current[Ring.Place((long)Plant.ValvePosition)] = Plant.SupplyCurrentA;
        }

        return current;
    }
}

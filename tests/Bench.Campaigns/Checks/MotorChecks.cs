using Bench.Analysis.Motor;
using Bench.Model.Profiles;
using Bench.Running.Safety;

namespace Bench.Campaigns.Checks;

/// <summary>Relations of the DC motor, copper, and the supply's tolerance.</summary>
internal static class MotorChecks
{
    private const string Relations = "linear speed-torque line, motor handbooks";

    /// <summary>The checks.</summary>
    public static IEnumerable<Check> All()
    {
        // fixtures/simulation/dc-motor-24v.csv: 12 Ω, 0.045 N·m/A, 0.05 A without load; and held still: V/R.
        double[][] rows = [.. File.ReadAllLines(CheckData.PathOf(Path.Combine("fixtures", "simulation", "dc-motor-24v.csv")))
            .Skip(1).Where(l => l.Length > 0).Select(l => l.Split(',').Select(CheckData.Number).ToArray())];
        SteadyPoint[] points = [.. rows.Select(r => new SteadyPoint(r[0], r[3], r[2])), new(24, 2.0, 0), new(20.4, 1.7, 0)];
        MotorConstants motor = MotorConstants.Fit(points).Constants!;
        yield return new("motor resistance", "24 V motor, 5 loads and held", Relations, 12, motor.ResistanceOhm.Value, 8);
        yield return new("motor constant K", "24 V motor, 5 loads and held", Relations, 0.045, motor.BackEmf.Value, 8);
        MotorConstants free = MotorConstants.Fit([.. points.Where(p => p.CurrentA is < 0.051 or > 1)]).Constants!;
        yield return new("motor resistance", "24 V motor, free and held", Relations, 12, free.ResistanceOhm.Value, 8);
        yield return new("motor constant K", "24 V motor, free and held", Relations, 0.045, free.BackEmf.Value, 8);
        SteadyPoint[] loaded = [.. points.Where(p => p is { VoltageV: 24, SpeedRadPerS: > 0 }), new(24, 0.2722222222222222, 460.74074074074076)];
        yield return new("friction torque at mean speed", "24 V motor, 0, 10, 10, 20 mN·m", "K (I0 + mean load / K)", 0.00225 + 0.010, MotorConstants.Fit(loaded).Constants!.FrictionNm!.Value.Value, 7);

        // A steady state that the Control Tutorials' motor (R 1, K 0.01, b 0.1) takes at 1 V, and ones at other voltages and loads.
        const string tutorials = "Control Tutorials, DC motor speed";
        MotorConstants tutorial = MotorConstants.Fit([new(1, 0.9990009990009989, 0.09990009990009989), new(2, 1.9980019980019978, 0.19980019980019978), new(1, 1, 0), new(2, 1, 100), new(1, 0.5, 50)]).Constants!;
        yield return new("motor resistance", "R 1, K 0.01", tutorials, 1, tutorial.ResistanceOhm.Value, 12);
        yield return new("motor constant K", "R 1, K 0.01", tutorials, 0.01, tutorial.BackEmf.Value, 12);

        // Copper: ohms of a kilometre of wire at 20 °C and 75 °C, so the current that holds a 12 Ω winding of 10 K/W 55 K above 20 °C.
        foreach ((string gauge, double cold, double warm) in new[] { ("AWG 18", 20.94778, 25.47564), ("AWG 24", 84.21323, 102.41592) })
        {
            double current = Math.Sqrt(55 / (10 * 12 * warm / cold));
            yield return new("winding temperature", $"copper, {gauge} at 20 and 75 °C", "wire table, 0.00393 /K (IEC 60028, from memory)", 75, Steady(current), 5);
        }

        const string supply = "IEC 61131-2, 24 V d.c. -15 % +20 %";
        foreach (string family in new[] { "nutrient-diverter-4", "zone-selector-3" })
        {
            string file = CheckData.PathOf(Path.Combine("profiles", family + ".toml"));
            ElectricalData electrical = ProfileReader.Read(File.ReadAllText(file), file).Electrical;
            yield return new("least supply", family, supply, 20.4, electrical.SupplyMinV, 15);
            yield return new("greatest supply", family, supply, 28.8, electrical.SupplyMaxV, 15);
            yield return new("stall current", family, "V/R", electrical.SupplyNominalV / electrical.WindingOhm, electrical.StallCurrentA, 3.5);
        }
    }

    private static double Steady(double currentA)
    {
        WindingHeat winding = new(new WindingLimits { ThermalKPerW = 10, TimeConstantS = 1, MostCelsius = 155, AmbientCelsius = 20 }, 12, currentA, 2.0);
        winding.Take(0, currentA);
        for (int i = 1; i < 1000; i++)
        {
            winding.CelsiusAt(0.1 * i);
        }

        return winding.CelsiusAt(100);
    }
}

using Bench.Simulation.Chance;

namespace Bench.Simulation.Units;

/// <summary>How units of one family differ: no two are wound, fitted and run in alike.</summary>
public static class UnitSpread
{
    private const double Winding = 0.02;
    private const double TorqueConstant = 0.007;
    private const double Inertia = 0.02;
    private const double Friction = 0.08;
    private const double Seat = 0.10;
    private const double Play = 0.20;
    private const double IndexPlacingCounts = 0.7;

    // A part further out than this does not pass the maker's own end test.
    private const double MostDeviations = 2.5;

    /// <summary>One unit of the family, chosen by a seed.</summary>
    public static UnitDesign Spread(this UnitDesign nominal, ulong seed)
    {
        ArgumentNullException.ThrowIfNull(nominal);
        SeededRandom random = new SeededRandom(seed).Fork("unit spread");
        MotorDesign motor = nominal.Motor;
        ValveDesign valve = nominal.Valve;
        return nominal with
        {
            Motor = motor with
            {
                WindingOhm = motor.WindingOhm * Factor(random, Winding),
                InductanceH = motor.InductanceH * Factor(random, Winding),
                TorqueConstantNmPerA = motor.TorqueConstantNmPerA * Factor(random, TorqueConstant),
                InertiaKgM2 = motor.InertiaKgM2 * Factor(random, Inertia),
                DryFrictionNm = motor.DryFrictionNm * Factor(random, Friction),
                ViscousNmS = motor.ViscousNmS * Factor(random, Friction),
            },
            Gear = nominal.Gear with
            {
                DryFrictionNm = nominal.Gear.DryFrictionNm * Factor(random, Friction),
                PlayCounts = nominal.Gear.PlayCounts * Factor(random, Play),
            },
            Coupling = nominal.Coupling with { PlayCounts = nominal.Coupling.PlayCounts * Factor(random, Play) },
            Valve = valve with
            {
                FrictionNm = valve.FrictionNm * Factor(random, Friction),
                SeatExtraNm = valve.SeatExtraNm * Factor(random, Seat),
                IndexCount = valve.IndexCount + (IndexPlacingCounts * Clipped(random)),
                RoughnessSeed = random.NextBits(),
            },
            Connector = nominal.Connector with { ContactOhm = nominal.Connector.ContactOhm * random.Between(0.5, 2.0) },
        };
    }

    private static double Factor(SeededRandom random, double deviation) => 1.0 + (deviation * Clipped(random));

    private static double Clipped(SeededRandom random) => Math.Clamp(random.Normal(), -MostDeviations, MostDeviations);
}

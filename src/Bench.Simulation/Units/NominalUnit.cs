using Bench.Model.Profiles;

namespace Bench.Simulation.Units;

/// <summary>
/// Makes the physical unit that has a profile's nominal data. What a profile does not say is invented here, and chosen
/// so that the healthy unit runs at the profile's current and speed and coasts <see cref="CoastCounts"/>.
/// </summary>
public static class NominalUnit
{
    /// <summary>Coast after the off command with the motor shorted, counts.</summary>
    public const double CoastCounts = 7.0;

    /// <summary>Extra current at a seat, as a share of running current.</summary>
    public const double SeatExtraShare = 0.35;

    private const double SeatReachCounts = 12.0;
    private const double ElectricalTimeConstantS = 0.0005;
    private const double ViscousShareOfBareMotor = 0.3;
    private const double GearShareOfLoad = 0.2;
    private const double GearEfficiency = 0.65;
    private const double GearPlayCounts = 1.5;
    private const double CouplingPlayCounts = 0.8;
    private const double ContactOhm = 0.05;
    private const double RoughnessShare = 0.03;

    // What a sound coupling and sound teeth hold, as multiples of the stalled motor's torque at their shaft.
    private const double CouplingHolds = 4.0;
    private const double GearHolds = 6.0;

    /// <summary>Makes the nominal unit of a family.</summary>
    public static UnitDesign Of(Profile profile)
    {
        ArgumentNullException.ThrowIfNull(profile);
        ElectricalData e = profile.Electrical;
        double k = e.TorqueConstantNmPerA;
        double loopOhm = e.WindingOhm + ContactOhm;
        double runningRadPerS =
            (e.SupplyNominalV - (e.RunningCurrentA * (loopOhm + SupplyDesign.HealthySourceOhm))) / k;
        double freeRadPerS = (e.SupplyNominalV - (e.NoLoadCurrentA * e.WindingOhm)) / k;
        double bareNm = k * e.NoLoadCurrentA;
        double viscous = ViscousShareOfBareMotor * bareNm / freeRadPerS;
        double motorDry = (1.0 - ViscousShareOfBareMotor) * bareNm;
        double loadNm = (k * e.RunningCurrentA) - motorDry - (viscous * runningRadPerS);
        double toShaft = e.GearRatio * GearEfficiency;
        double stallAtShaft = k * e.SupplyNominalV / e.WindingOhm * toShaft;
        double radPerCount = 2.0 * Math.PI * e.GearRatio / profile.Ring.Counts;

        return new UnitDesign
        {
            Ring = profile.Ring,
            SupplyNominalV = e.SupplyNominalV,
            Motor = new MotorDesign
            {
                WindingOhm = e.WindingOhm,
                InductanceH = ElectricalTimeConstantS * e.WindingOhm,
                TorqueConstantNmPerA = k,
                InertiaKgM2 = InertiaForCoast(
                    k, loopOhm, viscous, motorDry + loadNm, runningRadPerS,
                    (CoastCounts * radPerCount) - (RelayDesign.Usual.ReleaseS * runningRadPerS)),
                DryFrictionNm = motorDry,
                ViscousNmS = viscous,
            },
            Gear = new GearDesign
            {
                Ratio = e.GearRatio,
                Efficiency = GearEfficiency,
                DryFrictionNm = GearShareOfLoad * loadNm,
                PlayCounts = GearPlayCounts,
                TransmitsNm = GearHolds * stallAtShaft,
            },
            Encoder = new EncoderDesign(),
            Coupling = new CouplingDesign
            {
                PlayCounts = CouplingPlayCounts,
                HoldsAtLeastNm = CouplingHolds * stallAtShaft,
                HoldsAtMostNm = CouplingHolds * stallAtShaft,
                ToothCounts = profile.Ring.Counts / 24.0,
            },
            Valve = new ValveDesign
            {
                FrictionNm = (1.0 - GearShareOfLoad) * loadNm * toShaft,
                SeatCounts = [.. profile.Ports.Select(p => (double)p.Count)],
                SeatExtraNm = SeatExtraShare * k * e.RunningCurrentA * toShaft,
                SeatReachCounts = SeatReachCounts,
                RoughnessShare = RoughnessShare,
                IndexCount = profile.IndexCount ?? MiddleOfFirstTravel(profile),
                IndexWidthCounts = profile.IndexWidthCounts ?? 0.0,
            },
            Connector = new ConnectorDesign { ContactOhm = ContactOhm },
            Feedback = new FeedbackDesign(),
            Controller = profile.Drive == DriveKind.Commanded ? new ControllerDesign() : null,
        };
    }

    // J dw/dt = -(K²/R + b) w - T: the way to rest from w0 is tau (w0 - wf ln(1 + w0/wf)),
    // tau = J / (K²/R + b), wf = T / (K²/R + b).
    private static double InertiaForCoast(double k, double ohm, double viscous, double dryNm, double from, double rad)
    {
        double damping = (k * k / ohm) + viscous;
        double wf = dryNm / damping;
        return damping * rad / (from - (wf * Math.Log(1.0 + (from / wf))));
    }

    // Where the profile does not say, the cam sits half-way between the first two ports.
    private static double MiddleOfFirstTravel(Profile profile)
    {
        int first = profile.Ports[0].Count;
        return profile.Ring.Place(first + (profile.Ring.Travel(first, profile.Ports[1].Count, up: true) / 2.0));
    }
}

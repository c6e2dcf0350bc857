using Bench.Simulation.Chance;
using Bench.Simulation.Conditions;
using Bench.Simulation.Units;

namespace Bench.Simulation.Mismatch;

/// <summary>Makes units and benches that differ from the ordinary model, so that it is seen what the judge owes to knowing it.</summary>
/// <param name="Variations">Which departures.</param>
/// <param name="Seed">How large each is.</param>
public sealed record ModelMismatch(IReadOnlyList<Variation> Variations, ulong Seed)
{
    /// <summary>Chance of each variation to be drawn: what it costs shows beside the units that go without.</summary>
    public const double Share = 0.5;

    /// <summary>Draws the departures of a seed.</summary>
    public static ModelMismatch Draw(ulong seed)
    {
        SeededRandom random = new SeededRandom(seed).Fork("mismatch");
        return new ModelMismatch([.. Enum.GetValues<Variation>().Where(_ => random.Happens(Share))], seed);
    }

    /// <summary>How the devices' turnaround departs; null when it does not.</summary>
    public Turnarounds? Turnarounds(TimeProvider time) => Variations.Contains(Variation.Turnaround)
        ? new Turnarounds(time, Chance(Variation.Turnaround))
        : null;

    /// <summary>The sound installation as it truly is.</summary>
    public Installation Apply(Installation sound)
    {
        ArgumentNullException.ThrowIfNull(sound);
        return Variations.Aggregate(sound, (all, variation) => Apply(all, variation, Chance(variation)));
    }

    private SeededRandom Chance(Variation variation) => new SeededRandom(Seed).Fork($"mismatch {variation}");

    private static Installation Apply(Installation all, Variation variation, SeededRandom random) => variation switch
    {
        Variation.Meter => all with { Meters = Meter(random) },
        Variation.Supply => all with
        {
            Supply = all.Supply with { SourceOhm = random.Between(0.25, 0.9), RippleShare = random.Between(0.005, 0.02) },
        },
        Variation.Turnaround => all,
        _ => all with { Unit = Unit(all.Unit, variation, random) },
    };

    private static MeterDesign Meter(SeededRandom random) => new()
    {
        WindowS = 0.020,
        Offset = random.Between(-1.5, 1.5),
        Drift = random.Between(0.0, 1.0),
        DriftPeriodS = random.Between(200.0, 1200.0),
        Step = random.Between(0.5, 3.0),
    };

    private static UnitDesign Unit(UnitDesign unit, Variation variation, SeededRandom random) => variation switch
    {
        Variation.FrictionLaw => unit with { Friction = Law(unit, random) },
        Variation.FrictionWaves => unit with { Valve = unit.Valve with { Waves = [Wave(1, random), Wave(2, random)] } },
        Variation.EccentricRing or Variation.UnevenSensors => unit with
        {
            Encoder = unit.Encoder with { Geometry = Geometry(unit, variation, random) },
        },
        Variation.Index => unit with
        {
            Valve = unit.Valve with
            {
                IndexCount = unit.Valve.IndexCount + random.Between(-3.0, 3.0),
                IndexWidthCounts = unit.Valve.IndexWidthCounts * random.Between(0.8, 1.25),
            },
        },
        Variation.Play => unit with
        {
            Gear = unit.Gear with { PlayCounts = random.Between(1.0, 3.0) },
            Coupling = unit.Coupling with { PlayCounts = random.Between(0.5, 2.5) },
        },
        Variation.LatchedCount => unit with { Feedback = unit.Feedback with { LatchS = random.Between(0.001, 0.004) } },
        Variation.Warming => unit with
        {
            Motor = unit.Motor with
            {
                Warming = new WarmingDesign(random.Between(0.0, 25.0), random.Between(12.0, 40.0), random.Between(20.0, 120.0)),
            },
        },
        _ => unit,
    };

    private static FrictionLaw Law(UnitDesign unit, SeededRandom random)
    {
        double running = 0.9 * unit.SupplyNominalV / unit.Motor.TorqueConstantNmPerA;
        return new FrictionLaw(
            random.Between(0.1, 0.5), running * random.Between(0.02, 0.08), random.Between(0.0, 0.5), running);
    }

    private static FrictionWave Wave(int periods, SeededRandom random) =>
        new(periods, random.Between(0.02, 0.08), random.Between(0.0, 2.0 * Math.PI));

    // A sound ring has no sensor narrower than 0.7 of its count.
    // An uneven spacing of a share s with k periods a turn adds up to an error of s N / (2 pi k).
    private static RingGeometry Geometry(UnitDesign unit, Variation variation, SeededRandom random)
    {
        RingGeometry known = unit.Encoder.Geometry ?? new RingGeometry(0.0, 0.0, (0.0, 0.0), []);
        double counts = unit.Ring.Counts / (2.0 * Math.PI);
        if (variation == Variation.EccentricRing)
        {
            return known with
            {
                OncePerTurnCounts = counts * random.Between(0.005, 0.02),
                TwicePerTurnCounts = counts / 2.0 * random.Between(0.003, 0.01),
                PhasesRad = (random.Between(0.0, 2.0 * Math.PI), random.Between(0.0, 2.0 * Math.PI)),
            };
        }

        double deviation = random.Between(0.02, 0.06);
        return known with
        {
            EdgeOffsets = [.. Enumerable.Range(0, unit.Ring.Counts).Select(_ => deviation * Math.Clamp(random.Normal(), -2.5, 2.5))],
        };
    }
}

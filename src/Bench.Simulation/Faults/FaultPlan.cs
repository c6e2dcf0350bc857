using Bench.Model.BenchFiles;
using Bench.Simulation.Chance;

namespace Bench.Simulation.Faults;

/// <summary>Which faults befall a bench, when, how long and how often: all of it from one seed.</summary>
/// <param name="Seed">Seed of the chance within the faults: which frames, which bits.</param>
/// <param name="Faults">The faults, by time.</param>
public sealed record FaultPlan(ulong Seed, IReadOnlyList<Fault> Faults)
{
    private const int MostFaults = 3;
    private const double NoFaultShare = 0.03;
    private const double AimedShare = 0.35;
    private const double FewHitsShare = 0.4;

    // A meter dead for less than that looks like a contact that opened: the unit has no time to lose speed, and no bench can tell them apart.
    private const double LeastMeterDeadS = 0.15;

    private static readonly FaultKind[] OfBoth =
    [
        FaultKind.Lost, FaultKind.Split, FaultKind.Merged, FaultKind.Late, FaultKind.BoardSilent, FaultKind.BoardRestart,
        FaultKind.StuckRelay, FaultKind.OpenRelay, FaultKind.EmergencyStop, FaultKind.CurrentMeterRefuses, FaultKind.CurrentMeterDead, FaultKind.FeedbackSilent,
    ];

    private static readonly FaultKind[] OfSerial =
    [
        FaultKind.BitFlipped, FaultKind.Doubled, FaultKind.Foreign, FaultKind.Echo, FaultKind.Noise, FaultKind.WrongParity,
        FaultKind.PortVanished, FaultKind.FeedbackGarbled,
    ];

    private static readonly FaultKind[] OfTcp = [FaultKind.Reset, FaultKind.HalfOpen, FaultKind.SlowPeer];

    private static readonly FaultKind[] OfSupply =
        [FaultKind.SupplySilent, FaultKind.SupplyRefuses, FaultKind.SupplyKeepsSetting, FaultKind.SupplyTooHigh, FaultKind.PowerCut];

    /// <summary>Whether a finding on the unit may come of it: it hits the feedback's own wires.</summary>
    public bool MayBlameFeedback => Faults.Any(f => f.IsFeedbacks);

    /// <summary>Draws a plan of none to three faults.</summary>
    /// <param name="seed">Seed.</param>
    /// <param name="bench">The bench they befall: its links and whether it sets its supply say which faults there can be.</param>
    /// <param name="withinS">Span in which faults begin, seconds from the start.</param>
    public static FaultPlan Draw(ulong seed, BenchFile bench, double withinS)
    {
        ArgumentNullException.ThrowIfNull(bench);
        SeededRandom random = new SeededRandom(seed).Fork("fault plan");
        int count = random.Happens(NoFaultShare) ? 0 : random.Whole(1, MostFaults);
        FaultKind[] kinds =
        [
            .. OfBoth,
            .. bench.Links.Any(l => l.Kind == LinkKind.Serial) ? OfSerial : [],
            .. bench.Links.Any(l => l.Kind == LinkKind.Tcp) ? OfTcp : [],
            .. bench.Devices.Any(d => d.SupplyVoltageV is not null) ? OfSupply : [],
        ];
        Fault[] faults = [.. Enumerable.Range(0, count).Select(_ => DrawOne(random, kinds, withinS)).OrderBy(f => f.AtS)];
        return new FaultPlan(seed, faults);
    }

    private static Fault DrawOne(SeededRandom random, FaultKind[] kinds, double withinS)
    {
        FaultKind kind = kinds[random.Whole(0, kinds.Length - 1)];
        return new Fault(
            kind,
            random.Between(0.0, withinS),
            LogUniform(random, kind is FaultKind.CurrentMeterDead or FaultKind.PowerCut ? LeastMeterDeadS : 0.02, 3.0),
            LogUniform(random, 0.03, 1.0),
            random.Happens(FewHitsShare) ? random.Whole(1, 3) : int.MaxValue,
            random.Happens(0.4) ? WireSide.Both : random.Happens(0.5) ? WireSide.Requests : WireSide.Answers,
            random.Happens(AimedShare));
    }

    private static double LogUniform(SeededRandom random, double low, double high) =>
        low * Math.Exp(random.Next() * Math.Log(high / low));
}

using System.Globalization;
using Bench.Running;
using Bench.Simulation.Faults;

namespace Bench.Campaigns.Wire;

/// <summary>
/// What docs/hazards.md promises to hands at the unit, by the person's own clock: H1 from the question on nothing is energised,
/// set or switched on until it is answered, at a connector until the person has stepped back; H2 the outputs were read back off
/// before the question; H3 they are read back while a connector is moved, and again after the last hand is off; H4 the person is
/// called back soon when there is a sign of drive or the stop is pressed, and no question outlives its run.
/// </summary>
internal static class HandRules
{
    /// <summary>Longest time between two read-backs while a connector is moved, on a clean bus, seconds: the pace of half a second, and a slot.</summary>
    private const double ReadBackS = 0.65;

    /// <summary>How soon the person is called back when the unit is driven or the stop pressed, on a clean bus, seconds: two meter readings, and the frames of one slot.</summary>
    private const double CalledBackS = 0.3;

    internal static IEnumerable<Violation> Look(FaultPlan plan, Witness witness) =>
    [
        .. Spans(witness).SelectMany(s => NothingOn(witness, s.FromS, s.ToS, s.Work)),
        .. witness.Hands.SelectMany(h => ReadBackFirst(witness, h)),
        .. witness.Hands.Where(h => h.Work == HandWork.DisturbConnector).SelectMany(h => WatchedMeanwhile(plan, witness, h)),
        .. witness.Hands.Where(h => h.Done && h.Work != HandWork.ApproachConnector && h.Work != HandWork.DisturbConnector).SelectMany(h => ReadBackAfter(witness, h)),
        .. witness.Hands.Where(h => h.EndedS > witness.EndedS).Select(h => new Violation("H4", Text($"{h.Work} asked at {h.AskedS:0.0000} s still stands when the run has ended at {witness.EndedS:0.0000} s"))),
    ];

    // A connector is near from the first question to the last one's yes, however the run ends; any other work while its question stands.
    private static IEnumerable<(double FromS, double ToS, HandWork Work)> Spans(Witness witness)
    {
        foreach (HandRequest asked in witness.Hands.Where(h => h.Work is not (HandWork.DisturbConnector or HandWork.LeaveConnector)))
        {
            double toS = asked.EndedS;
            if (asked.Work == HandWork.ApproachConnector && asked.Done)
            {
                toS = witness.Hands.FirstOrDefault(h => h.Work == HandWork.LeaveConnector && h.AskedS >= asked.EndedS && h.Done)?.EndedS ?? double.PositiveInfinity;
            }

            yield return (asked.AskedS, toS, asked.Work);
        }
    }

    private static IEnumerable<Violation> NothingOn(Witness witness, double fromS, double toS, HandWork work)
    {
        bool Within(double timeS) => timeS >= fromS && timeS < toS;
        string during = Text($"hands at the unit since {fromS:0.0000} s ({work})");
        return
        [
            .. witness.Switched.Where(s => s.Change.On && Within(s.TimeS)).Select(s => new Violation("H1", Text($"a coil on at {s.TimeS:0.0000} s, {during}"))),
            .. witness.Writes.Where(w => w.Energises && Within(w.TimeS)).Select(w => new Violation("H1", Text($"a write that energises at {w.TimeS:0.0000} s, {during}"))),
            .. witness.SupplyLines.Where(l => Within(l.TimeS) && (l.Switches == true || (l.SetsV is not null && !SwitchedOff(witness, l.TimeS))))
                .Select(l => new Violation("H1", Text($"'{l.Text}' at {l.TimeS:0.0000} s, {during}"))),
        ];
    }

    // With its output commanded off, a supply may be set back.
    private static bool SwitchedOff(Witness witness, double timeS) =>
        witness.SupplyLines.LastOrDefault(l => l.Switches is not null && l.TimeS <= timeS)?.Switches == false;

    private static IEnumerable<Violation> ReadBackFirst(Witness witness, HandRequest asked)
    {
        CoilWrite? last = witness.Writes.LastOrDefault(w => w.TimeS <= asked.AskedS);
        if (last is { Energises: true } || !witness.CoilReads.Any(r => r.TimeS >= (last?.TimeS ?? 0) && r.TimeS <= asked.AskedS && !r.AnyOn))
        {
            yield return new Violation("H2", Text($"{asked.Work} asked at {asked.AskedS:0.0000} s, the outputs not read back off before"));
        }
    }

    private static IEnumerable<Violation> ReadBackAfter(Witness witness, HandRequest asked)
    {
        CoilWrite? on = witness.Writes.FirstOrDefault(w => w.Energises && w.TimeS >= asked.EndedS);
        if (on is not null && !witness.CoilReads.Any(r => r.TimeS > asked.EndedS && r.TimeS <= on.TimeS && !r.AnyOn))
        {
            yield return new Violation("H3", Text($"a write that energises at {on.TimeS:0.0000} s, the outputs not read back off since {asked.Work} was answered at {asked.EndedS:0.0000} s"));
        }
    }

    private static IEnumerable<Violation> WatchedMeanwhile(FaultPlan plan, Witness witness, HandRequest asked)
    {
        double untilS = Math.Min(asked.EndedS, witness.EndedS);
        if (TimeRules.Clean(plan, asked.AskedS - TimeRules.TailS, untilS))
        {
            double lastS = asked.AskedS;
            foreach (double readS in witness.CoilReads.Where(r => r.TimeS > asked.AskedS && r.TimeS < untilS).Select(r => r.TimeS).Append(untilS))
            {
                if (readS - lastS > ReadBackS)
                {
                    yield return new Violation("H3", Text($"the connector was moved from {lastS:0.0000} to {readS:0.0000} s without the outputs read back"));
                }

                lastS = readS;
            }
        }

        foreach (Fault fault in plan.Faults.Where(f => f.Kind is FaultKind.EmergencyStop or FaultKind.StuckRelay && f.AtS > asked.AskedS && f.AtS < untilS))
        {
            // The current meter is what shows a weld.
            bool seen = fault.Kind == FaultKind.EmergencyStop || Metered(plan, fault.AtS);
            if (seen && untilS - fault.AtS > CalledBackS && TimeRules.Clean(plan, fault.AtS - TimeRules.TailS, fault.AtS + CalledBackS) && !Stopped(plan, fault))
            {
                yield return new Violation("H4", Text($"{fault.Kind} at {fault.AtS:0.0000} s, the person at the connector called back {(untilS - fault.AtS) * 1000:0} ms later; bound {CalledBackS * 1000:0} ms"));
            }
        }
    }

    // A stop that was pressed before has taken the current away that would have shown it.
    private static bool Stopped(FaultPlan plan, Fault fault) =>
        fault.Kind == FaultKind.StuckRelay && plan.Faults.Any(f => f.Kind == FaultKind.EmergencyStop && f.AtS < fault.AtS);

    private static bool Metered(FaultPlan plan, double timeS) => !plan.Faults.Any(f =>
        f.Kind is FaultKind.CurrentMeterDead or FaultKind.CurrentMeterRefuses or FaultKind.PowerCut && f.AtS < timeS + CalledBackS && f.EndS > timeS);

    private static string Text(FormattableString text) => text.ToString(CultureInfo.InvariantCulture);
}

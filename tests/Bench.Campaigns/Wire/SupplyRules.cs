using System.Globalization;
using Bench.Model.Instruments;
using Bench.Model.Runs;
using Bench.Simulation.Faults;

namespace Bench.Campaigns.Wire;

/// <summary>
/// What docs/hazards.md promises of a supply that is set, by the lines on its link and by the supply itself: V1 within what
/// profile and bench file allow; V2 the drive read back off; V3 once, by a decision of its own; V4 nothing switched on before the
/// setting was read back and measured; V5 back at its own voltage and off at the end; V6 switched on only once confirmed and set.
/// </summary>
internal static class SupplyRules
{
    /// <summary>How far a setting read back, and a voltage measured, may be from what was asked, shares.</summary>
    private const double ReadBackWithin = 0.0051;
    private const double MeasuredWithin = 0.03;

    /// <summary>How often a voltage that was set must have been measured, and that of the start.</summary>
    private const int Measured = 2;
    private const int MeasuredAtStart = 1;

    /// <summary>How long the end must have been tried for where the supply did not answer, seconds: the patience of 2 s, its last attempt not counted.</summary>
    private const double LeastTriedS = 1.7;

    /// <summary>How long before a run's end a fault must have been over for the end to have reached the supply, seconds: one attempt in vain, and one good.</summary>
    private const double LastAttemptsS = 0.6;

    /// <summary>How long after a decision its line may be sent, seconds: the permit's life, and the decision's entry.</summary>
    private const double PermitS = 0.101;

    /// <summary>How long going back and switching off may be tried for after their entry, seconds.</summary>
    private const double TriedS = 2.5;

    internal static IEnumerable<Violation> Look(Rig rig, FaultPlan plan, Witness witness, RunRecord? record) =>
        rig.Supply is not { SupplyVoltageV: double nominalV, SupplyRange: { } range } ? [] :
        [
            .. Within(range.And(new SupplyRange(rig.Profile.Electrical.SupplyMinV, rig.Profile.Electrical.SupplyMaxV)), witness),
            .. DriveOff(nominalV, witness, record),
            .. KnownBeforeAnythingMoves(witness),
            .. BackAtTheEnd(nominalV, plan, witness),
            .. SwitchedOnOnceSet(nominalV, witness),
            .. double.IsFinite(witness.UnwritableS) ? [] : Decided(nominalV, witness),
        ];

    private static IEnumerable<Violation> Within(SupplyRange allowed, Witness witness) => witness.SupplyLines
        .Where(l => l.SetsV is double v && !(v >= allowed.LowestV && v <= allowed.HighestV))
        .Select(l => new Violation("V1", Text($"'{l.Text}' at {l.TimeS:0.0000} s; profile and bench file allow {allowed.LowestV:0.0} to {allowed.HighestV:0.0} V")));

    // Back to its own voltage it goes at the end even where the drive can't be confirmed off.
    private static IEnumerable<Violation> DriveOff(double nominalV, Witness witness, RunRecord? record)
    {
        foreach (SupplyLine line in witness.SupplyLines.Where(l => l.SetsV is double v && (v != nominalV || record is { OutputsConfirmedOff: true })))
        {
            CoilWrite? last = witness.Writes.LastOrDefault(w => w.TimeS <= line.TimeS);
            bool readBack = witness.CoilReads.Any(r => r.TimeS >= (last?.TimeS ?? 0) && r.TimeS <= line.TimeS && !r.AnyOn);
            if (last is { Energises: true } || !readBack)
            {
                yield return new Violation("V2", Text($"'{line.Text}' at {line.TimeS:0.0000} s, the drive {(last is { Energises: true } ? "commanded on" : "not read back off")}"));
            }

            if (OnAt(witness, line.TimeS))
            {
                yield return new Violation("V2", Text($"'{line.Text}' at {line.TimeS:0.0000} s, a coil on"));
            }
        }
    }

    private static IEnumerable<Violation> Decided(double nominalV, Witness witness)
    {
        Stamped[] all = [.. witness.Events.Where(e => e.Event.Kind == RunEventKind.OutputCommand && e.Event.Text.StartsWith("supply: ", StringComparison.Ordinal))];
        List<Stamped> commands = [.. all];
        foreach (SupplyLine line in witness.SupplyLines.Where(l => l.SetsV is double v && v != nominalV))
        {
            string asked = Text($"supply: {line.SetsV:0.00} V");
            int mine = commands.FindIndex(e => e.Event.Text == asked && e.TimeS <= line.TimeS && line.TimeS - e.TimeS <= PermitS);
            if (mine < 0)
            {
                yield return new Violation("V3", Text($"'{line.Text}' at {line.TimeS:0.0000} s without a decision of its own within {PermitS * 1000:0} ms before it in the record"));
            }
            else
            {
                commands.RemoveAt(mine);
            }
        }

        foreach (SupplyLine line in witness.SupplyLines.Where(l => l.SetsV == nominalV || l.Switches is not null))
        {
            string[] asked = line.Switches switch
            {
                true => ["supply: on"],
                false => ["supply: on", "supply: off"],
                null => ["supply: on", "supply: voltage of the bench file"],
            };
            Stamped last = all.LastOrDefault(e => e.TimeS <= line.TimeS);
            if (last.Event is null || !asked.Contains(last.Event.Text) || line.TimeS - last.TimeS > TriedS)
            {
                yield return new Violation("S9", Text($"'{line.Text}' at {line.TimeS:0.0000} s, and no '{string.Join("' or '", asked)}' is the last before it in the record"));
            }
        }
    }

    private static IEnumerable<Violation> KnownBeforeAnythingMoves(Witness witness)
    {
        foreach (CoilWrite write in witness.Writes.Where(w => w.Energises))
        {
            SupplyLine? set = witness.SupplyLines.LastOrDefault(l => l.TimeS <= write.TimeS && l.SetsV is not null);
            if (set?.SetsV is not double askedV)
            {
                yield return new Violation("V4", Text($"a write that energises at {write.TimeS:0.0000} s, the supply never set"));
                continue;
            }

            IEnumerable<SupplyAnswer> since = witness.SupplyAnswers.Where(a => a.TimeS >= set.TimeS && a.TimeS <= write.TimeS);
            if (!since.Any(a => a.To.AsksSetting && Math.Abs(a.Value - askedV) <= ReadBackWithin * askedV))
            {
                yield return new Violation("V4", Text($"a write that energises at {write.TimeS:0.0000} s, '{set.Text}' not read back"));
            }

            int least = witness.SupplyLines.First(l => l.SetsV is not null) == set ? MeasuredAtStart : Measured;
            if (since.Count(a => a.To.AsksMeasured && Math.Abs(a.Value - askedV) <= MeasuredWithin * askedV) < least)
            {
                yield return new Violation("V4", Text($"a write that energises at {write.TimeS:0.0000} s, '{set.Text}' not measured {least} times"));
            }

            SupplyState truly = witness.Supply.LastOrDefault(s => s.TimeS <= write.TimeS);
            if (!(Math.Abs(truly.VoltageV - askedV) <= ReadBackWithin * askedV))
            {
                yield return new Violation("V4", Text($"a write that energises at {write.TimeS:0.0000} s, the supply truly at {truly.VoltageV:0.00} V, '{set.Text}' the last set"));
            }
        }
    }

    private static IEnumerable<Violation> BackAtTheEnd(double nominalV, FaultPlan plan, Witness witness)
    {
        SupplyState end = witness.Supply.LastOrDefault(s => s.TimeS <= witness.EndedS);
        SupplyLine? varied = witness.SupplyLines.LastOrDefault(l => l.SetsV is double v && v != nominalV);
        bool away = varied is not null && Math.Abs(end.VoltageV - nominalV) > ReadBackWithin * nominalV;
        if (!end.On && !away)
        {
            yield break;
        }

        string what = Text($"the supply is {(end.On ? "on" : "off")} and at {end.VoltageV:0.00} V at the end");
        if (Reachable(plan, witness.EndedS - LastAttemptsS, witness.EndedS))
        {
            yield return new Violation("V5", what);
            yield break;
        }

        SupplyLine[] tries = [.. witness.SupplyLines.Where(l => (end.On && l.Switches == false) || (away && l.SetsV == nominalV && l.TimeS > varied!.TimeS))];
        bool parted = plan.Faults.Any(f => f.Kind is FaultKind.PortVanished or FaultKind.Reset && f.AtS < witness.EndedS);
        bool refused = plan.Faults.Any(f => f.Kind == FaultKind.SupplyRefuses);
        if (!parted && !refused && (tries.Length == 0 || witness.EndedS - tries[0].TimeS < LeastTriedS))
        {
            yield return new Violation("V5", Text($"{what}, tried for {(tries.Length == 0 ? 0 : witness.EndedS - tries[0].TimeS):0.00} s only"));
        }
    }

    private static IEnumerable<Violation> SwitchedOnOnceSet(double nominalV, Witness witness)
    {
        foreach (SupplyLine on in witness.SupplyLines.Where(l => l.Switches == true))
        {
            double resetS = witness.SupplyLines.LastOrDefault(l => l.Resets && l.TimeS < on.TimeS)?.TimeS ?? 0;
            SupplyLine? set = witness.SupplyLines.LastOrDefault(l => l.SetsV is not null && l.TimeS > resetS && l.TimeS < on.TimeS);
            if (on.TimeS < witness.ConfirmedS)
            {
                yield return new Violation("V6", Text($"'{on.Text}' at {on.TimeS:0.0000} s, before the confirmation"));
            }

            if (set?.SetsV != nominalV || !witness.SupplyAnswers.Any(a => a.To.AsksSetting && a.TimeS > set.TimeS && a.TimeS <= on.TimeS && Math.Abs(a.Value - nominalV) <= ReadBackWithin * nominalV))
            {
                yield return new Violation("V6", Text($"'{on.Text}' at {on.TimeS:0.0000} s, its voltage not set and read back since the reset"));
            }
        }
    }

    private static bool Reachable(FaultPlan plan, double fromS, double toS) => plan.Faults.All(f =>
        f.Kind is FaultKind.EmergencyStop or FaultKind.StuckRelay or FaultKind.OpenRelay or FaultKind.CurrentMeterDead or FaultKind.CurrentMeterRefuses
            or FaultKind.FeedbackSilent or FaultKind.FeedbackGarbled or FaultKind.BoardSilent or FaultKind.BoardRestart
            or FaultKind.Doubled or FaultKind.Foreign or FaultKind.Echo or FaultKind.SupplyTooHigh or FaultKind.PowerCut
        || f.AtS > toS || f.EndS < fromS);

    private static bool OnAt(Witness witness, double timeS)
    {
        bool[] on = [false, false];
        foreach (Switched s in witness.Switched.Where(s => s.TimeS <= timeS))
        {
            on[s.Change.Up ? 1 : 0] = s.Change.On;
        }

        return on[0] || on[1];
    }

    private static string Text(FormattableString text) => text.ToString(CultureInfo.InvariantCulture);
}

using System.Globalization;
using Bench.Model.Runs;
using Bench.Simulation.Benches;
using Bench.Simulation.Faults;

namespace Bench.Campaigns.Wire;

/// <summary>S1, S2, S3, S5 and S7, by the relays.</summary>
internal static class OutputRules
{
    /// <summary>How late the plant's clock may see what was in time: one simulation step and rounding, seconds.</summary>
    private const double HairS = 0.0002;

    /// <summary>How long a welded contact must have driven the motor before a run must have seen it, seconds: a settling time with its meter readings.</summary>
    private const double WeldSeenS = 0.5;

    internal static IEnumerable<Violation> Look(Rig rig, FaultPlan plan, Witness witness, RunRecord? record) =>
        [.. OnlyByCommand(witness), .. NeverBoth(rig, witness), .. NotBeforeConfirmed(witness), .. OffAtEnd(plan, witness, record), .. NotTooLong(rig, witness, record)];

    // S1: every going-on has a write of its own that asked for it.
    private static IEnumerable<Violation> OnlyByCommand(Witness witness)
    {
        Queue<CoilWrite> energising = new(witness.Writes.Where(w => w.Energises));
        foreach (Switched s in witness.Switched.Where(s => s.Change.On))
        {
            CoilWrite? write = null;
            while (energising.TryDequeue(out CoilWrite? next))
            {
                if (Asks(next, s.Change.Up))
                {
                    write = next;
                    break;
                }
            }

            if (!s.Change.Commanded || write is null || write.TimeS > s.TimeS)
            {
                yield return new Violation("S1", Text($"coil {Name(s.Change)} went on at {s.TimeS:0.0000} s without a command of its own"));
            }
        }
    }

    private static IEnumerable<Violation> NeverBoth(Rig rig, Witness witness)
    {
        double deadS = rig.Profile.Safety.DeadTimeMs / 1000.0;
        double?[] off = [double.NegativeInfinity, double.NegativeInfinity];
        foreach (Switched s in witness.Switched)
        {
            int mine = s.Change.Up ? 1 : 0;
            if (s.Change.On && off[1 - mine] is not { } since)
            {
                yield return new Violation("S2", Text($"both coils on at {s.TimeS:0.0000} s"));
            }
            else if (s.Change.On && s.TimeS - off[1 - mine] < deadS - HairS)
            {
                yield return new Violation("S2", Text($"coil {Name(s.Change)} on at {s.TimeS:0.0000} s, {(s.TimeS - off[1 - mine]) * 1000:0.0} ms after the other's off; dead time is {deadS * 1000:0} ms"));
            }

            off[mine] = s.Change.On ? null : s.TimeS;
        }
    }

    private static IEnumerable<Violation> NotBeforeConfirmed(Witness witness)
    {
        foreach (Switched s in witness.Switched.Where(s => s.Change.On && s.TimeS < witness.ConfirmedS))
        {
            yield return new Violation("S3", Text($"coil {Name(s.Change)} on at {s.TimeS:0.0000} s, before the confirmation"));
        }

        foreach (CoilWrite write in witness.Writes.Where(w => w.Energises && w.TimeS < witness.ConfirmedS))
        {
            yield return new Violation("S3", Text($"a write that energises at {write.TimeS:0.0000} s, before the confirmation"));
        }
    }

    private static IEnumerable<Violation> OffAtEnd(FaultPlan plan, Witness witness, RunRecord? record)
    {
        if (witness.CoilOnAtEnd && ConfirmedOff(witness, record))
        {
            yield return new Violation("S5", "a coil is on at the end, and the run says that it is off");
        }

        if (record is { OutputsConfirmedOff: false } && record.Abort is not (AbortReason.OutputNotConfirmed or AbortReason.BenchFault))
        {
            yield return new Violation("S5", $"off is not confirmed, and the record's reason is {record.Abort?.ToString() ?? "none"}");
        }

        // Only the current shows a welded contact: without its meter nobody can see it.
        bool metered = !plan.Faults.Any(f => f.Kind is FaultKind.CurrentMeterDead or FaultKind.CurrentMeterRefuses
            && f.AtS < witness.EndedS && f.EndS > witness.EndedS - WeldSeenS);
        bool welded = metered && plan.Faults.Any(f => f.Kind == FaultKind.StuckRelay && f.AtS < witness.EndedS - WeldSeenS);
        if (witness.DrivenAtEnd && welded && record is { Abort: null })
        {
            yield return new Violation("S5", "the motor is driven with both coils off, and the run was not aborted");
        }

        if (!witness.SupplyOffAfterwards)
        {
            yield return new Violation("S10", "the trouble is over, and switching everything off left the supply on");
        }

        if (!witness.OffAfterwards)
        {
            yield return new Violation("S10", "the trouble is over, and switching everything off did not do it");
        }
    }

    // S7, with the gate's guard, one off that is lost and the wire in between.
    private static IEnumerable<Violation> NotTooLong(Rig rig, Witness witness, RunRecord? record)
    {
        double mostS = ((rig.Profile.Safety.MostOnMs + 250) / 1000.0) + TimeRules.OffS;
        foreach (Switched on in witness.Switched.Where(s => s.Change.On))
        {
            double offS = witness.Switched.Where(s => s.TimeS >= on.TimeS && s.Change.Up == on.Change.Up && !s.Change.On)
                .Select(s => s.TimeS).FirstOrDefault(witness.EndedS);
            if (offS - on.TimeS > mostS && ConfirmedOff(witness, record))
            {
                yield return new Violation("S7", Text($"coil {Name(on.Change)} on for {offS - on.TimeS:0.000} s, longer than {mostS:0.000} s"));
            }
        }
    }

    // A run without a record says by how it ended whether it knows that the outputs are off.
    private static bool ConfirmedOff(Witness witness, RunRecord? record) => record?.OutputsConfirmedOff ?? !witness.SaidNotOff;

    private static bool Asks(CoilWrite write, bool up)
    {
        int index = (up ? 0 : 1) - write.Address;
        return index >= 0 && index < write.On.Count && write.On[index];
    }

    private static string Name(OutputChange change) => change.Up ? "up" : "down";

    private static string Text(FormattableString text) => text.ToString(CultureInfo.InvariantCulture);
}

using System.Globalization;
using Bench.Model.Features;
using Bench.Model.Judging;
using Bench.Model.Runs;
using Bench.Simulation.Faults;

namespace Bench.Campaigns.Wire;

/// <summary>S8 and S9, and what the record says of the unit.</summary>
internal static class RecordRules
{
    /// <summary>How long after its decision a write may energise (the permit's life), seconds.</summary>
    private const double PermitS = 0.100;

    /// <summary>How long off is tried for, with its last exchanges, seconds.</summary>
    private const double ConfirmS = 2.5;

    internal static IEnumerable<Violation> Look(FaultPlan plan, Witness witness, RunRecord record) =>
        [.. WrittenOnce(witness), .. Recorded(witness, record), .. OfTheUnit(plan, witness, record)];

    // S8: each write that energises belongs to a decision of its own, taken before it and not long before.
    private static IEnumerable<Violation> WrittenOnce(Witness witness)
    {
        List<double> decisions = [.. witness.Events.Where(e => IsOn(e.Event)).Select(e => e.TimeS)];
        CoilWrite? previous = null;
        foreach (CoilWrite write in witness.Writes)
        {
            if (write.Energises)
            {
                int mine = decisions.FindLastIndex(d => d <= write.TimeS && write.TimeS - d <= PermitS);
                if (mine < 0)
                {
                    yield return new Violation("S8", Text($"a write energised at {write.TimeS:0.0000} s without a decision within {PermitS * 1000:0} ms before it"));
                }
                else
                {
                    decisions.RemoveAt(mine);
                }

                if (previous is { Energises: true })
                {
                    yield return new Violation("S8", Text($"a write energised at {write.TimeS:0.0000} s and the one before it, at {previous.TimeS:0.0000} s, had too"));
                }
            }

            previous = write;
        }
    }

    // S9: each change that a command made has its command in the record before it, and what came of it after.
    private static IEnumerable<Violation> Recorded(Witness witness, RunRecord record)
    {
        List<Stamped> outputs = [.. witness.Events.Where(e => e.Event.Kind is RunEventKind.OutputCommand)];
        foreach (Switched s in witness.Switched.Where(s => s.Change.Commanded && s.TimeS <= witness.EndedS))
        {
            string text = !s.Change.On ? "drive: off" : s.Change.Up ? "drive up: on" : "drive down: on";
            if (!outputs.Any(e => e.Event.Text == text && e.TimeS <= s.TimeS && s.TimeS - e.TimeS < ConfirmS))
            {
                yield return new Violation("S9", Text($"a relay changed at {s.TimeS:0.0000} s, and no '{text}' stands before it in the record"));
            }
        }

        bool open = false;
        foreach (RunEvent e in record.Events)
        {
            if (e.Kind == RunEventKind.OutputCommand && open)
            {
                yield return new Violation("S9", Text($"'{e.Text}' at {e.TimeS:0.0000} s follows a command of which nothing came"));
            }

            open = e.Kind == RunEventKind.OutputCommand || (open && e.Kind is not (RunEventKind.OutputResult or RunEventKind.Fault or RunEventKind.Gate));
        }

        if (!record.Events.SequenceEqual(witness.Events.Select(e => e.Event)))
        {
            yield return new Violation("S9", "the record's events are not those of the journal");
        }
    }

    private static IEnumerable<Violation> OfTheUnit(FaultPlan plan, Witness witness, RunRecord record)
    {
        if (record.Abort == AbortReason.Defect)
        {
            yield return new Violation("defect", record.AbortText ?? "");
        }

        if (record.Judgement is not { Disposition: Disposition.Scrap or Disposition.Repairable } judgement)
        {
            yield break;
        }

        // A fault on the feedback's own wires may be found at the feedback, and nowhere else. Few hits on a whole bus may
        // by chance have struck none but the feedback's frames; that is the same thing.
        bool may = plan.MayBlameFeedback || witness.HitsBesideFeedback == 0;
        Finding[] against = [.. judgement.Findings.Where(f => f.Decision == FindingDecision.DoesNotConform && !f.Feature.Name.StartsWith("bench.", StringComparison.Ordinal))];
        bool feedback = against.All(f => f.Feature.Name.StartsWith("feedback.", StringComparison.Ordinal) || ProvokedFeatures.All.Contains(f.Feature.Name) || f.Feature.Name.StartsWith("demonstration.", StringComparison.Ordinal));

        // A supply that is gone while its connector is moved is what is looked for there.
        may |= plan.Faults.Any(f => f.Kind == FaultKind.PowerCut) && against.All(f => f.Feature.Name == ProvokedFeatures.ConnectorDropouts);
        if (!may || !feedback)
        {
            yield return new Violation(Oracle.Condemned, $"{judgement.Disposition}: {string.Join(", ", against.Select(f => f.Feature.Name))}");
        }
    }

    private static bool IsOn(RunEvent e) => e.Kind == RunEventKind.OutputCommand && e.Text.EndsWith(": on", StringComparison.Ordinal);

    private static string Text(FormattableString text) => text.ToString(CultureInfo.InvariantCulture);
}

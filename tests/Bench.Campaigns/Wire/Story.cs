using System.Globalization;
using System.Text;
using Bench.Simulation.Faults;

namespace Bench.Campaigns.Wire;

/// <summary>One run told in order: plan, events, relays, coil writes, verdict.</summary>
internal static class Story
{
    internal static string Of(WireResult result)
    {
        StringBuilder text = new();
        text.AppendLine(CultureInfo.InvariantCulture, $"seed {result.Seed}: {result.Rig.Name}");
        foreach (Fault fault in result.Plan.Faults)
        {
            text.AppendLine(CultureInfo.InvariantCulture, $"  plan    {fault}");
        }

        IEnumerable<(double TimeS, string Text)> lines =
        [
            .. result.Witness.Events.Select(e => (e.TimeS, $"record  {e.Event.Kind}: {e.Event.Text}")),
            .. result.Witness.Writes.Select(w => (w.TimeS, $"wire    coils from {w.Address}: {string.Join(", ", w.On.Select(on => on ? "on" : "off"))}")),
            .. result.Witness.SupplyLines.Where(l => !l.AsksMeasured).Select(l => (l.TimeS, $"supply  {l.Text}")),
            .. result.Witness.SupplyAnswers.Where(a => !a.To.AsksMeasured).Select(a => (a.TimeS, $"supply  answers {a.Text}")),
            .. result.Witness.Supply.Select(s => (s.TimeS, Text($"supply  is at {s.VoltageV:0.00} V, {(s.On ? "on" : "off")}"))),
            .. result.Witness.Hands.Select(h => (h.AskedS, $"person  asked: {h.Work}")),
            .. result.Witness.Hands.Select(h => (h.EndedS, $"person  {h.Work}: {(h.Withdrawn ? "called back" : h.Done ? "done" : "no")}")),
            (result.Witness.CancelledS, "person  stops the run"),
            (result.Witness.UnwritableS, "fault   the record can't be written"),
            .. result.Witness.Switched.Select(s => (s.TimeS, $"relay   {(s.Change.Up ? "up" : "down")} {(s.Change.On ? "on" : "off")}{(s.Change.Commanded ? "" : " (restart)")}")),
            .. result.Plan.Faults.Select(f => (f.AtS, $"fault   {f.Kind} begins")),
            .. result.Plan.Faults.Where(f => !f.ForGood).Select(f => (f.EndS, $"fault   {f.Kind} ends")),
            (result.Witness.EndedS, "the run has ended"),
        ];
        foreach ((double timeS, string line) in lines.Where(l => double.IsFinite(l.TimeS)).OrderBy(l => l.TimeS))
        {
            text.AppendLine(CultureInfo.InvariantCulture, $"  {timeS,8:0.0000} {line}");
        }

        text.AppendLine(CultureInfo.InvariantCulture, $"  {result.Outcome}; {result.Record?.AbortText}");
        foreach (string reason in result.Record?.Judgement?.Reasons ?? [])
        {
            text.AppendLine(CultureInfo.InvariantCulture, $"  reason  {reason}");
        }

        foreach (Violation violation in result.Violations)
        {
            text.AppendLine(CultureInfo.InvariantCulture, $"  BROKEN  {violation.Rule}: {violation.Text}");
        }

        text.AppendLine(CultureInfo.InvariantCulture, $"  hash    {Convert.ToHexStringLower(result.Hash)}");
        return text.ToString();
    }

    private static string Text(FormattableString text) => text.ToString(CultureInfo.InvariantCulture);
}

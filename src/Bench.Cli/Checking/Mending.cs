using Bench.Model.Serialization;

namespace Bench.Cli.Checking;

/// <summary>What a bench's check asks a person to mend, in the order of work: what is on, what is dead, what is bad, what is slow, what is due.</summary>
internal static class Mending
{
    /// <summary>The lines; none when all is well.</summary>
    public static IReadOnlyList<string> Of(BenchCondition found) =>
    [
        .. found.Outputs.Where(s => s.State is not null && !s.ConfirmedOff).Select(s =>
            $"{s.Position}: an output reads back {BenchJson.Word(s.State!.Value)} although nothing was commanded: run 'bench safe', then check the relay"),
        .. found.Devices.GroupBy(d => d.Check.Link).SelectMany(Dead),
        .. Worst(found.Devices.Where(d => d.Check.Answered).Select(d => (d.Check.Device, d.Graded))),
        .. Worst(found.Positions.Where(p => p.Graded is not null).Select(p => (p.Alone.Position, p.Graded!))),
        .. found.Calibrations.Where(c => c.Overdue).OrderBy(c => c.DaysLeft).Select(c => FormattableString.Invariant(
            $"{c.Position} {c.Meter}: due {c.DueOn:yyyy-MM-dd}, and overdue: units will be held until it is renewed")),
        .. found.Calibrations.Where(c => c.DueSoon).OrderBy(c => c.DaysLeft).Select(c => FormattableString.Invariant(
            $"{c.Position} {c.Meter}: due {c.DueOn:yyyy-MM-dd}, in {c.DaysLeft} days: order it now")),
    ];

    private static IEnumerable<string> Dead(IGrouping<string, CheckedDevice> link) =>
        link.Count() > 1 && link.All(d => !d.Check.Answered)
            ? [$"link {link.Key}: no device answers: check port, speed and parity, the adapter's wiring (A and B exchanged?) and the devices' power"]
            : link.Where(d => !d.Check.Answered).OrderBy(d => d.OfUnit)
                .Select(d => $"{d.Check.Device}: {d.Graded.Reasons[0]}");

    private static IEnumerable<string> Worst(IEnumerable<(string Name, Graded Graded)> parts) =>
        parts.OrderByDescending(p => p.Graded.Grade).SelectMany(p => p.Graded.Reasons.Select(r => $"{p.Name}: {r}"));
}

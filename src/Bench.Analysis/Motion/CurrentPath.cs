using Bench.Analysis.Extraction;
using Bench.Model.Instruments;
using Bench.Model.Runs;

namespace Bench.Analysis.Motion;

/// <summary>
/// Whether a motor without current may be the bench's doing. A relay contact that does not make, a broken wire to the
/// connector and a blown fuse look like an open winding, and read back as commanded. Common practice, no source: a path
/// counts as good only while something is known to have drawn current through it.
/// </summary>
internal static class CurrentPath
{
    private const string Swap = "Run a known good unit at this position: if that one turns, run this one again; if not, mend relay, wire or fuse";

    /// <summary>Why the moves without current may be the bench's; null when they are the unit's, or there are none.</summary>
    public static string? Doubt(RunSoFar run, BenchSnapshot bench)
    {
        if (run.Still.All(s => s.Kind != StillKind.NoCurrent))
        {
            return null;
        }

        // Moves in which nobody measured tell nothing here.
        (DriveDirection Way, bool Flows, int Place)[] seen =
            [.. run.Still.Select((s, i) => (run.Moves[i].Direction, s.FlowsAtEnd, i)).Where(m => m.FlowsAtEnd is not null).Select(m => (m.Direction, m.FlowsAtEnd!.Value, m.i))];
        int first = Array.FindIndex(seen, m => !m.Flows);
        if (seen.Skip(first).Any(m => m.Flows))
        {
            return Returns(seen) ? null : OneWay(seen);
        }

        int number = seen[first].Place + 1;
        if (first > 0 || run.Still[seen[first].Place].Flowed)
        {
            return FormattableString.Invariant(
                $"current flowed until move {number} and never after, which the unit's motor circuit or the bench's own relays, wires and fuse can do. {Swap}");
        }

        return bench.IsProven
            ? null
            : $"no current flowed in any move, and nothing shows that the bench's own relays, wires and fuse pass it: no unit has turned at position '{bench.Position}' in the hour before. {Swap}";
    }

    /// <summary>
    /// As <see cref="Doubt(RunSoFar, BenchSnapshot)"/>, of the moves of one stage that came after moves with current: why those that
    /// failed without current may be the bench's; null when they are the unit's, or there are none.
    /// </summary>
    public static string? Doubt(IReadOnlyList<(int Number, DriveDirection Way, StillMove Still)> moves)
    {
        if (moves.All(m => m.Still.Kind != StillKind.NoCurrent))
        {
            return null;
        }

        (DriveDirection Way, bool Flows, int Place)[] seen =
            [.. moves.Where(m => m.Still.FlowsAtEnd is not null).Select(m => (m.Way, m.Still.FlowsAtEnd!.Value, m.Number))];
        int first = Array.FindIndex(seen, m => !m.Flows);
        return Returns(seen) ? null
            : seen.Skip(first).Any(m => m.Flows) ? OneWay(seen)
            : FormattableString.Invariant(
                $"current flowed until move {seen[first].Place} and never after, which the unit's motor circuit or the bench's own relays, wires and fuse can do. {Swap}");
    }

    // What fails and comes back the same way is worn or loose; a contact that has burnt stays so.
    private static bool Returns((DriveDirection Way, bool Flows, int Place)[] seen) =>
        seen.GroupBy(m => m.Way).Any(way => way.SkipWhile(m => m.Flows).Any(m => m.Flows));

    // A motor passes current both ways or not at all.
    private static string OneWay((DriveDirection Way, bool Flows, int Place)[] seen)
    {
        string way = seen.Last(m => !m.Flows).Way == DriveDirection.Up ? "rising" : "falling";
        return $"current stopped flowing towards {way} counts while it still flowed the other way; a motor passes it both ways or not at all. Check the relay and the wire for {way} counts, then run this unit again";
    }
}

using Bench.Analysis.Extraction;
using Bench.Model.Instruments;
using Bench.Model.Moves;
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
    /// <param name="run">The run; moves made to provoke a fault are looked at after those of the unit in use.</param>
    /// <param name="bench">The bench.</param>
    /// <param name="provoked">Whether the moves made to provoke a fault count, too.</param>
    public static string? Doubt(RunSoFar run, BenchSnapshot bench, bool provoked = false)
    {
        (Move Move, StillMove Still)[] all = [.. run.Moves.Zip(run.Still), .. provoked ? run.Provoked : []];
        if (all.All(m => m.Still.Kind != StillKind.NoCurrent))
        {
            return null;
        }

        // Moves in which nobody measured tell nothing here.
        (DriveDirection Way, bool Flows, int Place)[] seen =
            [.. all.Select((m, i) => (m.Move.Direction, m.Still.FlowsAtEnd, i)).Where(m => m.FlowsAtEnd is not null).Select(m => (m.Direction, m.FlowsAtEnd!.Value, m.i))];
        int first = Array.FindIndex(seen, m => !m.Flows);
        if (seen.Skip(first).Any(m => m.Flows))
        {
            return Returns(seen) ? null : OneWay(seen);
        }

        int number = all[seen[first].Place].Move.Number;
        if (first > 0 || all[seen[first].Place].Still.Flowed)
        {
            return FormattableString.Invariant(
                $"current flowed until move {number} and never after, which the unit's motor circuit or the bench's own relays, wires and fuse can do. {Swap}");
        }

        return bench.IsProven
            ? null
            : $"no current flowed in any move, and nothing shows that the bench's own relays, wires and fuse pass it: no unit has turned at position '{bench.Position}' in the hour before. {Swap}";
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

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
    public static string? Doubt(RunSoFar run, BenchSnapshot bench)
    {
        bool[] none = [.. run.Still.Select(s => s.Kind == StillKind.NoCurrent)];
        int first = Array.IndexOf(none, true);
        if (first < 0)
        {
            return null;
        }

        if (none.AsSpan(first).Contains(false))
        {
            return OneWay(run.Moves, none);
        }

        if (first > 0 || run.Still[0].Flowed)
        {
            return FormattableString.Invariant(
                $"current flowed until move {first + 1} and never after, which the unit's motor circuit or the bench's own relays, wires and fuse can do. {Swap}");
        }

        return bench.IsProven
            ? null
            : $"no current flowed in any move, and nothing shows that the bench's own relays, wires and fuse pass it: no unit has turned at position {bench.Position} in the {BenchSnapshot.ProofHours:0} hours before. {Swap}";
    }

    // A motor passes current both ways or not at all.
    private static string? OneWay(List<Move> moves, bool[] none)
    {
        foreach (DriveDirection dead in (DriveDirection[])[DriveDirection.Up, DriveDirection.Down])
        {
            int since = -1;
            bool only = true;
            bool other = false;
            for (int i = 0; i < moves.Count; i++)
            {
                bool same = moves[i].Direction == dead;
                since = since < 0 && same && none[i] ? i : since;
                if (since >= 0)
                {
                    only &= none[i] == same;
                    other |= !same;
                }
            }

            if (since >= 0 && only && other)
            {
                string way = dead == DriveDirection.Up ? "rising" : "falling";
                return $"from move {since + 1} on no current flowed towards {way} counts, and in every move the other way it did; a motor passes it both ways or not at all. Check the relay and the wire for {way} counts, then run this unit again";
            }
        }

        return null;
    }
}

using Bench.Analysis.Statistics;
using Bench.Model.Moves;
using Bench.Model.Profiles;
using Bench.Model.Traces;

namespace Bench.Analysis.Motion;

/// <summary>What a move in which the count stood still under drive was (C7).</summary>
internal enum StillKind
{
    /// <summary>The count did not stand still, or the move tells nothing.</summary>
    None,

    /// <summary>Current near stall.</summary>
    Locked,

    /// <summary>Almost no current.</summary>
    NoCurrent,

    /// <summary>Current of the bare motor: it runs, but nothing follows.</summary>
    FreeRunning,

    /// <summary>Current of a turning valve, or the shaft's index changed: the shaft turns and the count does not.</summary>
    CountStill,
}

/// <summary>A move that did not turn the count, with current and voltage while it stood still.</summary>
/// <param name="Kind">What it was.</param>
/// <param name="CurrentA">Median current while still under drive; null without samples.</param>
/// <param name="VoltageV">Median voltage then; null without samples.</param>
/// <param name="Flowed">Whether current flowed at any time while the drive was on.</param>
/// <param name="FlowsAtEnd">Whether it still did at the end of that time; null where nobody measured. A move that landed counts as if.</param>
internal sealed record StillMove(StillKind Kind, double? CurrentA, double? VoltageV, bool Flowed, bool? FlowsAtEnd)
{
    /// <summary>The last part of the drive's time that is looked at, seconds.</summary>
    private const double WindowS = 0.3;

    /// <summary>Classifies a move.</summary>
    public static StillMove Of(Move move, MeterRows rows, ElectricalData nominal)
    {
        double from = Math.Max(move.DriveOnS + 0.05, move.DriveOffS - WindowS);
        MeterRows still = rows.Between(from, move.DriveOffS);
        bool? flows = move.End == MoveEnd.Landed ? true : still.Length == 0 ? null : HasCurrent(still, nominal);
        if (move.End is not (MoveEnd.Stalled or MoveEnd.NoCurrent or MoveEnd.CountStill))
        {
            return new StillMove(StillKind.None, null, null, true, flows);
        }

        MeterRows driven = rows.Between(move.DriveOnS, move.DriveOffS);
        double? current = still.Length == 0 ? null : Robust.Median(still.Currents);
        double? voltage = still.Length == 0 ? null : Robust.Median(still.Voltages);
        StillKind kind = move.End switch
        {
            MoveEnd.Stalled => StillKind.Locked,
            MoveEnd.NoCurrent => StillKind.NoCurrent,
            _ => Running(driven, current, nominal),
        };
        return new StillMove(kind, current, voltage, HasCurrent(driven, nominal), kind == StillKind.NoCurrent ? false : flows);
    }

    private static bool HasCurrent(MeterRows driven, ElectricalData nominal)
    {
        foreach (double current in driven.Currents)
        {
            if (current >= nominal.NoLoadCurrentA / 2)
            {
                return true;
            }
        }

        return false;
    }

    private static StillKind Running(MeterRows driven, double? current, ElectricalData nominal)
    {
        bool shaftTurned = driven.Index.Contains((byte)IndexState.Open) && driven.Index.Contains((byte)IndexState.Closed);
        return !shaftTurned && current is double i
            && Math.Abs(i - nominal.NoLoadCurrentA) < Math.Abs(i - nominal.RunningCurrentA)
                ? StillKind.FreeRunning
                : StillKind.CountStill;
    }
}

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
    public static StillMove Of(Move move, MeterRow[] rows, ElectricalData nominal)
    {
        double from = Math.Max(move.DriveOnS + 0.05, move.DriveOffS - WindowS);
        ReadOnlySpan<MeterRow> still = MeterRow.Between(rows, from, move.DriveOffS);
        bool? flows = move.End == MoveEnd.Landed ? true : still.IsEmpty ? null : HasCurrent(still, nominal);
        if (move.End is not (MoveEnd.Stalled or MoveEnd.NoCurrent or MoveEnd.CountStill))
        {
            return new StillMove(StillKind.None, null, null, true, flows);
        }

        double? current = still.IsEmpty ? null : Robust.Median(MeterRow.Currents(still));
        double? voltage = still.IsEmpty ? null : Robust.Median(MeterRow.Voltages(still));
        StillKind kind = move.End switch
        {
            MoveEnd.Stalled => StillKind.Locked,
            MoveEnd.NoCurrent => StillKind.NoCurrent,
            _ => Running(MeterRow.Between(rows, move.DriveOnS, move.DriveOffS), current, nominal),
        };
        return new StillMove(kind, current, voltage, HasCurrent(MeterRow.Between(rows, move.DriveOnS, move.DriveOffS), nominal), kind == StillKind.NoCurrent ? false : flows);
    }

    private static bool HasCurrent(ReadOnlySpan<MeterRow> driven, ElectricalData nominal)
    {
        foreach (MeterRow row in driven)
        {
            if (row.CurrentA >= nominal.NoLoadCurrentA / 2)
            {
                return true;
            }
        }

        return false;
    }

    private static StillKind Running(ReadOnlySpan<MeterRow> driven, double? current, ElectricalData nominal)
    {
        bool open = false;
        bool closed = false;
        foreach (MeterRow row in driven)
        {
            open |= row.Index == IndexState.Open;
            closed |= row.Index == IndexState.Closed;
        }

        bool shaftTurned = open && closed;
        return !shaftTurned && current is double i
            && Math.Abs(i - nominal.NoLoadCurrentA) < Math.Abs(i - nominal.RunningCurrentA)
                ? StillKind.FreeRunning
                : StillKind.CountStill;
    }
}

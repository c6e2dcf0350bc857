namespace Bench.Model.Moves;

/// <summary>Kinds of stage a routine is made of.</summary>
public enum StageKind
{
    /// <summary>Drive off: supply voltage, off current, and whether the feedback answers and stands still.</summary>
    Supply,

    /// <summary>About two revolutions in one direction, then to the first port.</summary>
    Homing,

    /// <summary>Every ordered pair of ports, each way the drive allows.</summary>
    PortMoves,

    /// <summary>Moves that cover the ring until the stopping rule is content.</summary>
    Endurance,

    /// <summary>Provocation: many short starts from ever other angles, where a brush may stick or a part of the commutator be dead.</summary>
    Starts,

    /// <summary>One short move with the valve taken off, where only that tells a seized valve from a seized motor.</summary>
    Uncoupled,
}

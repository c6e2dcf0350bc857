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

    /// <summary>Provocation: moves at the least supply that a unit is tested at, where one that only just starts stays.</summary>
    LowSupply,

    /// <summary>Provocation: moves at the greatest supply that a unit is tested at.</summary>
    HighSupply,

    /// <summary>Provocation: a person moves connector and cable, drive off, while feedback and supply are watched.</summary>
    Connector,

    /// <summary>Provocation: turns until the winding is estimated warm, then moves from port to port.</summary>
    Warm,

    /// <summary>One short move with the valve taken off, where only that tells a seized valve from a seized motor.</summary>
    Uncoupled,
}

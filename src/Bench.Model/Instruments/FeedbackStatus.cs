namespace Bench.Model.Instruments;

/// <summary>What became of one attempt to read the unit's position.</summary>
public enum FeedbackStatus : byte
{
    /// <summary>Position was not asked for in this sample.</summary>
    NotSampled = 0,

    /// <summary>A count on the ring was read.</summary>
    Ok = 1,

    /// <summary>The feedback did not answer in time.</summary>
    Silent = 2,

    /// <summary>The answer was damaged.</summary>
    Garbled = 3,

    /// <summary>The feedback answered with an exception.</summary>
    Refused = 4,

    /// <summary>The answer was whole but the count is not on the ring.</summary>
    OutOfRange = 5,

    /// <summary>The link is gone; nothing can be said of the feedback.</summary>
    LinkLost = 6,

    /// <summary>No port's switch is closed: the unit is between ports, and where is not known.</summary>
    BetweenPorts = 7,

    /// <summary>More than one port's switch is closed: they contradict each other, and where the unit stands is not known.</summary>
    SwitchesContradict = 8,
}

namespace Bench.Running;

/// <summary>Work by hand at a unit that a run may ask for.</summary>
public enum HandWork
{
    /// <summary>Unplug the feedback's connector and plug it in until its lock closes.</summary>
    ReseatFeedback,

    /// <summary>Take the valve off, so that the motor and its gear turn by themselves.</summary>
    UncoupleValve,

    /// <summary>Read the cautions and come near the connector, without touching it yet.</summary>
    ApproachConnector,

    /// <summary>
    /// Flex connector and cable, drive off. Done means that the person has stopped; cancelled, that the bench has seen enough
    /// and they are to stop.
    /// </summary>
    DisturbConnector,

    /// <summary>Let go of the connector, see that it is home, and step back.</summary>
    LeaveConnector,
}

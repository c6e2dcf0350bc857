namespace Bench.Running;

/// <summary>Work by hand at a unit that a run may ask for.</summary>
public enum HandWork
{
    /// <summary>Unplug the feedback's connector and plug it in until its lock closes.</summary>
    ReseatFeedback,

    /// <summary>Take the valve off, so that the motor and its gear turn by themselves.</summary>
    UncoupleValve,

    /// <summary>Flex connector and cable, drive off, until told otherwise.</summary>
    DisturbConnector,
}

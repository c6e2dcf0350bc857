namespace Bench.Model.Features;

/// <summary>What is known of one count of the ring.</summary>
public enum SensorState
{
    /// <summary>Passed too seldom to say.</summary>
    Untested,

    /// <summary>Seen as often as sampling allows.</summary>
    Seen,

    /// <summary>Seen less often than sampling allows, yet sometimes (or one of an arc that is).</summary>
    Weak,

    /// <summary>Never seen, in enough passes to have been.</summary>
    Dead,
}

namespace Bench.Model.Profiles;

/// <summary>How a unit reports its position.</summary>
public enum FeedbackKind
{
    /// <summary>Absolute count on a ring.</summary>
    Ring,

    /// <summary>A counter that goes up and down with the encoder and wraps; its place on the ring counts from the first reading until the index gives it.</summary>
    Incremental,

    /// <summary>One input per port; between ports there is no count.</summary>
    Switches,
}

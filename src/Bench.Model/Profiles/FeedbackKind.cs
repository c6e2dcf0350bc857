namespace Bench.Model.Profiles;

/// <summary>How a unit reports its position.</summary>
public enum FeedbackKind
{
    /// <summary>Absolute count on a ring.</summary>
    Ring,
}

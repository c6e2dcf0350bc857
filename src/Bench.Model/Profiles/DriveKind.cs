namespace Bench.Model.Profiles;

/// <summary>How a unit is driven.</summary>
public enum DriveKind
{
    /// <summary>One output, one direction (up).</summary>
    Single,

    /// <summary>Two outputs, either direction, break before make.</summary>
    Reversing,

    /// <summary>The unit closes its own loop: it is given power and a target, turns the short way there, and stops by itself.</summary>
    Commanded,
}

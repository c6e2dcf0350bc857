namespace Bench.Devices.Buses;

/// <summary>Who goes first on a link. Within a class: first come, first served.</summary>
public enum BusClass
{
    /// <summary>Writes to outputs, and reading back what they are.</summary>
    Safety = 0,

    /// <summary>Positions of units that turn.</summary>
    Moving = 1,

    /// <summary>Everything else.</summary>
    Rest = 2,
}

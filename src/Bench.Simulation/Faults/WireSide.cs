namespace Bench.Simulation.Faults;

/// <summary>Directions of a link.</summary>
[Flags]
public enum WireSide
{
    /// <summary>From the bench's program to its devices.</summary>
    Requests = 1,

    /// <summary>From the devices to the program.</summary>
    Answers = 2,

    /// <summary>Both ways.</summary>
    Both = Requests | Answers,
}

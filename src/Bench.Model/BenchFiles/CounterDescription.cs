namespace Bench.Model.BenchFiles;

/// <summary>A counter that goes up and down with the encoder: how it becomes a count on the ring.</summary>
public sealed record CounterDescription
{
    /// <summary>Greatest width of a counter, bits.</summary>
    public const int MostBits = 32;

    /// <summary>Width: it wraps at 2 to this power.</summary>
    public required int Bits { get; init; }

    /// <summary>Steps of the counter per revolution of the ring.</summary>
    public required int CountsPerRevolution { get; init; }

    /// <summary>Whether it falls while the unit turns towards rising counts.</summary>
    public bool Reversed { get; init; }

    /// <summary>Count of the ring at the first reading.</summary>
    public int HomeCount { get; init; }
}

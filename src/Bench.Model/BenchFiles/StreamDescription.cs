namespace Bench.Model.BenchFiles;

/// <summary>How a device that pushes frames unasked makes them up: <c>[device.stream]</c>.</summary>
public sealed record StreamDescription
{
    /// <summary>Shortest and longest frame, bytes.</summary>
    public const int LeastFrameBytes = 4;

    /// <summary>As <see cref="LeastFrameBytes"/>.</summary>
    public const int MostFrameBytes = 256;

    /// <summary>Slowest and quickest stream, frames per second.</summary>
    public const double LeastRateHz = 10;

    /// <summary>As <see cref="LeastRateHz"/>.</summary>
    public const double MostRateHz = 10_000;

    /// <summary>Length of a frame, sync and check included.</summary>
    public required int FrameBytes { get; init; }

    /// <summary>What a frame begins with, 1 to 4 bytes.</summary>
    public required IReadOnlyList<byte> Sync { get; init; }

    /// <summary>Order of the bytes of every number.</summary>
    public ByteOrder Bytes { get; init; }

    /// <summary>First byte of the counter that goes up by one with each frame.</summary>
    public required int SequenceOffset { get; init; }

    /// <summary>Width of that counter, 8, 16 or 32 bits; it wraps.</summary>
    public required int SequenceBits { get; init; }

    /// <summary>What a frame ends with.</summary>
    public FrameCheckKind Check { get; init; }

    /// <summary>Frames per second by the device's own clock.</summary>
    public required double RateHz { get; init; }

    /// <summary>The numbers, at least one.</summary>
    public required IReadOnlyList<StreamField> Fields { get; init; }

    /// <summary>Bytes of the check.</summary>
    public int CheckBytes => Check switch { FrameCheckKind.None => 0, FrameCheckKind.Sum8 => 1, _ => 2 };
}

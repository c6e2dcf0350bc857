using System.Text.Json.Serialization;

namespace Bench.Model.Features;

/// <summary>Mean current by angle, over all revolutions (C7).</summary>
public sealed record AngleProfile
{
    /// <summary>Counts per bin.</summary>
    public required double BinCounts { get; init; }

    /// <summary>Count at which the first bin begins, less than <see cref="BinCounts"/>: bins are counted from the first port, so that they lie alike wherever the ring's zero is.</summary>
    [JsonIgnore(Condition = JsonIgnoreCondition.WhenWritingDefault)]
    public double FirstCount { get; init; }

    /// <summary>Mean current per bin, amperes; NaN is never stored, an empty bin is null.</summary>
    public required IReadOnlyList<double?> MeanA { get; init; }

    /// <summary>Samples per bin.</summary>
    public required IReadOnlyList<int> Samples { get; init; }
}

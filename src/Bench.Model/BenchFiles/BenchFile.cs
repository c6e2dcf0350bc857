namespace Bench.Model.BenchFiles;

/// <summary>A bench: links, devices, and the unit positions wired to them; read from a TOML file (docs/bench-file.md).</summary>
public sealed record BenchFile
{
    /// <summary>Name of the bench.</summary>
    public required string Name { get; init; }

    /// <summary>Current limit set on the supply, amperes.</summary>
    public required double SupplyCurrentLimitA { get; init; }

    /// <summary>Links.</summary>
    public required IReadOnlyList<LinkDescription> Links { get; init; }

    /// <summary>Devices.</summary>
    public required IReadOnlyList<DeviceDescription> Devices { get; init; }

    /// <summary>Unit positions, at least one.</summary>
    public required IReadOnlyList<UnitPositionDescription> Positions { get; init; }

    /// <summary>What gauge studies found the bench to add to the uncertainty of features.</summary>
    public IReadOnlyList<GaugeDescription> Gauges { get; init; } = [];

    /// <summary>SHA-256 of the file's bytes, lower-case hexadecimal.</summary>
    public required string Sha256 { get; init; }

    /// <summary>The file's text.</summary>
    public required string Text { get; init; }
}

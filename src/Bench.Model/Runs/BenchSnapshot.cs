using System.Text.Json.Serialization;
using Bench.Model.BenchFiles;

namespace Bench.Model.Runs;

/// <summary>The bench as it was in a run.</summary>
public sealed record BenchSnapshot
{
    /// <summary>
    /// Hours for which a unit that turned proves its position. Common practice, no source: units follow each other within
    /// minutes, and a contact that fails in just this hour is far rarer than an open winding.
    /// </summary>
    public const double ProofHours = 1;

    /// <summary>Name of the bench.</summary>
    public required string Name { get; init; }

    /// <summary>Name of the unit position.</summary>
    public required string Position { get; init; }

    /// <summary>Supply current limit, amperes.</summary>
    public required double SupplyCurrentLimitA { get; init; }

    /// <summary>The current meter.</summary>
    public required MeterDescription Current { get; init; }

    /// <summary>The voltage meter.</summary>
    public required MeterDescription Voltage { get; init; }

    /// <summary>Whether an index input is wired.</summary>
    public required bool HasIndex { get; init; }

    /// <summary>Whether an emergency-stop input is wired.</summary>
    public required bool HasEmergencyStop { get; init; }

    /// <summary>
    /// How long before this run a unit was last turned at this position, hours; null when none is known of. Tells an open
    /// motor circuit from a bench whose own relays and wires pass no current.
    /// </summary>
    public double? LastDroveHours { get; init; }

    /// <summary>Whether a unit that turned shortly before shows that this position's own wires and relays are good.</summary>
    [JsonIgnore]
    public bool IsProven => LastDroveHours is double hours && hours <= ProofHours;

    /// <summary>What gauge studies found this position to add to the uncertainty of features, each feature once.</summary>
    public IReadOnlyList<GaugeDescription> Gauges { get; init; } = [];

    /// <summary>SHA-256 of the bench file.</summary>
    public required string Sha256 { get; init; }

    /// <summary>A bench as a run at one of its positions finds it.</summary>
    /// <param name="bench">The bench.</param>
    /// <param name="position">One of its positions.</param>
    /// <param name="lastDroveHours">How long ago a unit was last turned there, hours; null when that is not known.</param>
    public static BenchSnapshot Of(BenchFile bench, UnitPositionDescription position, double? lastDroveHours = null)
    {
        ArgumentNullException.ThrowIfNull(bench);
        ArgumentNullException.ThrowIfNull(position);
        return new BenchSnapshot
        {
            Name = bench.Name,
            Position = position.Name,
            SupplyCurrentLimitA = bench.SupplyCurrentLimitA,
            Current = position.Current,
            Voltage = position.Voltage,
            HasIndex = position.Index is not null,
            HasEmergencyStop = position.EmergencyStop is not null,
            LastDroveHours = lastDroveHours,
            Gauges = [.. bench.Gauges
                .Where(g => g.Position is null || g.Position == position.Name)
                .GroupBy(g => g.Feature).Select(g => g.FirstOrDefault(own => own.Position is not null) ?? g.First())],
            Sha256 = bench.Sha256,
        };
    }
}

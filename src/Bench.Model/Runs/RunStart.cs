using Bench.Model.Profiles;
using Bench.Model.Returns;

namespace Bench.Model.Runs;

/// <summary>What is known when a run begins.</summary>
public sealed record RunStart
{
    /// <summary>Id (UUIDv7, RFC 9562).</summary>
    public required Guid Id { get; init; }

    /// <summary>When it began.</summary>
    public required DateTimeOffset StartedAt { get; init; }

    /// <summary>The return under test.</summary>
    public required UnitReturn Return { get; init; }

    /// <summary>The bench.</summary>
    public required BenchSnapshot Bench { get; init; }

    /// <summary>The profile.</summary>
    public required Profile Profile { get; init; }

    /// <summary>Version of this program.</summary>
    public required string Software { get; init; }

    /// <summary>Whether the unit, bench and time are simulated.</summary>
    public required bool Simulated { get; init; }

    /// <summary>In the demo, the condition the simulator was given; null otherwise. Never read by analysis or judge.</summary>
    public string? SimulatedCondition { get; init; }
}

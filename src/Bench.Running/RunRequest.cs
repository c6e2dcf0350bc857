using Bench.Model.Instruments;
using Bench.Model.Runs;

namespace Bench.Running;

/// <summary>All a run needs.</summary>
public sealed record RunRequest
{
    /// <summary>What is known when it begins.</summary>
    public required RunStart Start { get; init; }

    /// <summary>The unit position; the run is its only user until it ends.</summary>
    public required IUnitPosition Position { get; init; }

    /// <summary>Where the run is taken down.</summary>
    public required IRunJournal Journal { get; init; }

    /// <summary>The clock.</summary>
    public required TimeProvider Time { get; init; }

    /// <summary>The person at the bench.</summary>
    public required IOperator Operator { get; init; }

    /// <summary>Supplies that the run switches; null where a person does.</summary>
    public IBenchPower? Power { get; init; }

    /// <summary>Who watches; null for nobody.</summary>
    public IRunObserver? Observer { get; init; }
}

using Bench.Model.BenchFiles;
using Bench.Model.Instruments;
using Bench.Model.Profiles;
using Bench.Running.Safety;

namespace Bench.Running.Exercising;

/// <summary>All that exercising the outputs of a position needs.</summary>
public sealed record ExerciseRequest
{
    /// <summary>The bench.</summary>
    public required BenchFile Bench { get; init; }

    /// <summary>How the position is wired.</summary>
    public required UnitPositionDescription Description { get; init; }

    /// <summary>Its instruments; the exercise is their only user until it ends.</summary>
    public required IUnitPosition Position { get; init; }

    /// <summary>Limits of the family that is, or will be, in it.</summary>
    public required Profile Profile { get; init; }

    /// <summary>Serial number of the unit in it; null for none.</summary>
    public string? UnitSerial { get; init; }

    /// <summary>The person at the bench.</summary>
    public required IOperator Operator { get; init; }

    /// <summary>Takes every change of output before and after it.</summary>
    public required IGateRecord Record { get; init; }

    /// <summary>The clock.</summary>
    public required TimeProvider Time { get; init; }
}

namespace Bench.Model.Returns;

/// <summary>A returned unit and its claim.</summary>
public sealed record UnitReturn
{
    /// <summary>Serial number, 1 to 64 printable characters.</summary>
    public required string Serial { get; init; }

    /// <summary>Reported symptom.</summary>
    public required Symptom Symptom { get; init; }

    /// <summary>Part number; null when not given.</summary>
    public string? PartNumber { get; init; }

    /// <summary>Return number; null when not given.</summary>
    public string? ReturnNumber { get; init; }

    /// <summary>What the field wrote; null when nothing.</summary>
    public string? FieldNote { get; init; }
}

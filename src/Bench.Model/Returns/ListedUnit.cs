namespace Bench.Model.Returns;

/// <summary>One unit of a units file, as written there; null where the file leaves it to whoever reads it.</summary>
public sealed record ListedUnit
{
    /// <summary>Line of its heading, from 1.</summary>
    public required int Line { get; init; }

    /// <summary>Where it is mounted: a position of the bench.</summary>
    public required string Position { get; init; }

    /// <summary>Serial number, 1 to 64 printable characters; null where <see cref="Return"/> brings it.</summary>
    public string? Serial { get; init; }

    /// <summary>Number of a return that was taken in and brings serial number, symptom and all else; null where the file says them.</summary>
    public string? Return { get; init; }

    /// <summary>What the field reported.</summary>
    public Symptom? Symptom { get; init; }

    /// <summary>Path of the profile of its family, as written.</summary>
    public string? Profile { get; init; }

    /// <summary>Part number.</summary>
    public string? PartNumber { get; init; }

    /// <summary>Return number.</summary>
    public string? ReturnNumber { get; init; }

    /// <summary>What the field wrote.</summary>
    public string? FieldNote { get; init; }
}

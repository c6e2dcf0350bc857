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

    /// <summary>Revision on the label; null when not given.</summary>
    public string? Revision { get; init; }

    /// <summary>Date code on the label, as it stands there; null when not given.</summary>
    public string? DateCode { get; init; }

    /// <summary>Return number; null when not given.</summary>
    public string? ReturnNumber { get; init; }

    /// <summary>What the field wrote; null when nothing.</summary>
    public string? FieldNote { get; init; }

    /// <summary>Days the unit was in service, 0 to <see cref="MostDaysInService"/>; null when not known.</summary>
    public int? DaysInService { get; init; }

    /// <summary>What the field measured.</summary>
    public IReadOnlyList<FieldMeasurement> Measurements { get; init; } = [];

    /// <summary>The arrival inspection, an answer for each item looked at; empty when there was none.</summary>
    public IReadOnlyList<InspectionAnswer> Inspection { get; init; } = [];

    /// <summary>Photos and files that came with it or were taken on arrival.</summary>
    public IReadOnlyList<Attachment> Attachments { get; init; } = [];

    /// <summary>Hash of the entry in the book of returns that this was taken from; null when it was typed for the run.</summary>
    public string? EntryHash { get; init; }

    /// <summary>Most days in service: a hundred years.</summary>
    public const int MostDaysInService = 36_525;

    /// <summary>The answer to an item of the inspection; null when there is none.</summary>
    /// <param name="item">Id of the item.</param>
    public string? Answer(string item) => Inspection.FirstOrDefault(a => a.Item == item)?.Answer;
}

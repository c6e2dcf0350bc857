using Bench.Model.Judging;
using Bench.Model.Profiles;
using Bench.Model.Returns;

namespace Bench.Cli.Demonstrating;

/// <summary>A made-up return for the demo, and what a right verdict on it would be.</summary>
/// <param name="Serial">Serial number.</param>
/// <param name="Family">Id of its family.</param>
/// <param name="Condition">Condition the simulator is given.</param>
/// <param name="Symptom">What the field reported.</param>
/// <param name="FieldNote">What the field wrote.</param>
/// <param name="Right">Dispositions that are right for the condition; null among them stands for a held run.</param>
internal sealed record DemoUnit(
    string Serial, string Family, string Condition, Symptom Symptom, string FieldNote, IReadOnlyList<Disposition?> Right)
{
    /// <summary>Number of its return.</summary>
    public string ReturnNumber { get; init; } = $"R-{Serial}";

    /// <summary>Answers of the arrival inspection that are not those of a sound unit, by item.</summary>
    public IReadOnlyDictionary<string, string> Found { get; init; } = new Dictionary<string, string>();

    /// <summary>Whether a photo came with it.</summary>
    public bool HasPhoto { get; init; }

    /// <summary>The return as it is taken in: every item of the inspection was looked at.</summary>
    /// <param name="profile">Profile of its family.</param>
    public UnitReturn Return(Profile profile) => new()
    {
        Serial = Serial,
        Symptom = Symptom,
        PartNumber = profile.PartNumbers[0],
        ReturnNumber = ReturnNumber,
        FieldNote = FieldNote,
        Inspection = [.. profile.Inspection.Select(i => new InspectionAnswer(i.Id, Found.GetValueOrDefault(i.Id, i.Conforms[0])))],
    };
}

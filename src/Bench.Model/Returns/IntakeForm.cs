using System.Globalization;
using Bench.Model.Configuration;
using Bench.Model.Profiles;
using Bench.Model.Serialization;

namespace Bench.Model.Returns;

/// <summary>The intake form of a unit family: what is asked on arrival, and how answers become a return.</summary>
/// <param name="profile">The profile of the family.</param>
public sealed class IntakeForm(Profile profile)
{
    /// <summary>Most letters of what the field wrote or saw.</summary>
    public const int MostNote = 400;

    /// <summary>Most field measurements.</summary>
    public const int MostMeasurements = 20;

    private const string ReturnNumber = "return_number";
    private const string DaysInService = "days_in_service";

    /// <summary>The questions, in the order they are asked.</summary>
    public IReadOnlyList<IntakeField> Fields { get; } =
    [
        new("serial", "Serial number", "as on the unit's label, 1 to 64 characters; type or scan it") { Required = true },
        new("part", "Part number", "as on the unit's label") { Allowed = profile.PartNumbers },
        new("revision", "Revision", "as on the unit's label, at most 64 characters"),
        new("date_code", "Date code", "as on the unit's label, at most 64 characters"),
        new(ReturnNumber, "Return number", "of the paper that came with it, 1 to 64 characters; each arrival has its own") { Required = true },
        new("symptom", "Reported symptom", "whether the field saw the fault all the time, or now and then") { Required = true, Allowed = Words<Symptom>() },
        new("note", "What the field wrote or saw", $"at most {MostNote} characters"),
        new("measured", "What the field measured", FieldMeasurement.Form) { Repeats = true },
        new(DaysInService, "Days in service", $"a whole number, 0 to {UnitReturn.MostDaysInService}") { IsWhole = true },
        .. profile.Inspection.Select(item => new IntakeField(item.Feature, item.Question) { Required = item.Required, Allowed = item.AllowedAnswers }),
    ];

    /// <summary>Makes a return of answers.</summary>
    /// <param name="answers">Answers by key; blank ones count as none.</param>
    /// <param name="errors">Everything wrong in them; empty when there is a return.</param>
    /// <returns>The return; null when anything is wrong.</returns>
    public UnitReturn? Read(IReadOnlyDictionary<string, IReadOnlyList<string>> answers, out IReadOnlyList<IntakeError> errors)
    {
        ArgumentNullException.ThrowIfNull(answers);
        List<IntakeError> wrong = [.. Fields.SelectMany(field => Check(field, Given(answers, field.Key)))];
        string[] keys = [.. Fields.Select(f => f.Key)];
        wrong.AddRange(answers.Keys.Where(k => !keys.Contains(k, StringComparer.Ordinal))
            .Select(k => new IntakeError(k, "an unknown key", NearestName.Advice(k, keys))));
        errors = wrong;
        if (wrong.Count > 0)
        {
            return null;
        }

        string? One(string key) => Given(answers, key) is [var text, ..] ? text : null;
        return new UnitReturn
        {
            Serial = One("serial")!,
            Symptom = Enum.GetValues<Symptom>().First(s => BenchJson.Word(s) == One("symptom")),
            PartNumber = One("part"),
            Revision = One("revision"),
            DateCode = One("date_code"),
            ReturnNumber = One(ReturnNumber),
            FieldNote = One("note"),
            DaysInService = One(DaysInService) is string days ? int.Parse(days, CultureInfo.InvariantCulture) : null,
            Measurements = [.. Given(answers, "measured").Select(m => FieldMeasurement.Parse(m)!)],
            Inspection = [.. profile.Inspection
                .Select(item => (item.Id, Answer: One(item.Feature)))
                .Where(a => a.Answer is not null)
                .Select(a => new InspectionAnswer(a.Id, a.Answer!))],
        };
    }

    /// <summary>What is wrong with the answers to one field; nothing when they can be used.</summary>
    /// <param name="field">The field.</param>
    /// <param name="given">The answers, trimmed, none blank.</param>
    public static IEnumerable<IntakeError> Check(IntakeField field, IReadOnlyList<string> given)
    {
        ArgumentNullException.ThrowIfNull(field);
        ArgumentNullException.ThrowIfNull(given);
        if (given.Count == 0 && field.Required)
        {
            string wanted = field.Allowed.Count > 0 ? $"; allowed: {string.Join(", ", field.Allowed)}" : "";
            yield return new IntakeError(field.Key, "nothing", $"it is required{wanted}");
        }

        int most = field.Repeats ? MostMeasurements : 1;
        if (given.Count > most)
        {
            yield return new IntakeError(field.Key, string.Create(CultureInfo.InvariantCulture, $"{given.Count} answers"), string.Create(CultureInfo.InvariantCulture, $"at most {most} allowed"));
        }

        foreach (string text in given)
        {
            if (Refusal(field, text) is string allowed)
            {
                yield return new IntakeError(field.Key, Shown(text), allowed);
            }
        }
    }

    private static string? Refusal(IntakeField field, string text)
    {
        if (field.Allowed.Count > 0)
        {
            return field.Allowed.Contains(text, StringComparer.Ordinal) ? null
                : $"{NearestName.Advice(text, [.. field.Allowed])}{(field.Key == "part" ? "; this profile is for these part numbers, choose the unit's own profile" : "")}";
        }

        return field.Key switch
        {
            "measured" => FieldMeasurement.Parse(text) is null ? $"{FieldMeasurement.Form} is allowed" : null,
            DaysInService => int.TryParse(text, NumberStyles.None, CultureInfo.InvariantCulture, out int days) && days <= UnitReturn.MostDaysInService
                ? null : $"a whole number from 0 to {UnitReturn.MostDaysInService} is allowed",
            "note" => text.Length <= MostNote ? null : $"at most {MostNote} characters are allowed",
            _ => text.Length <= LabelText.MostCharacters && LabelText.FindUnprintable(text) is null
                ? null : $"1 to {LabelText.MostCharacters} printable characters, as on the unit's label, are allowed",
        };
    }

    private static string Shown(string text)
    {
        string printable = new([.. text.Take(60).Select(c => char.IsControl(c) ? '\uFFFD' : c)]);
        return text.Length > 60 ? $"'{printable}…'" : $"'{printable}'";
    }

    private static IReadOnlyList<string> Given(IReadOnlyDictionary<string, IReadOnlyList<string>> answers, string key) =>
        answers.TryGetValue(key, out IReadOnlyList<string>? given)
            ? [.. given.Select(g => g.Trim()).Where(g => g.Length > 0)]
            : [];

    private static string[] Words<T>()
        where T : struct, Enum => [.. Enum.GetValues<T>().Select(BenchJson.Word)];
}

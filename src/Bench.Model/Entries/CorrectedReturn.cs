using System.Globalization;
using Bench.Model.Profiles;
using Bench.Model.Returns;
using Bench.Model.Serialization;

namespace Bench.Model.Entries;

/// <summary>A return as it stands after corrections.</summary>
public static class CorrectedReturn
{
    /// <summary>The return with the corrections among entries applied, in order.</summary>
    /// <param name="sealedReturn">As the record holds it.</param>
    /// <param name="entries">Entries of the run, oldest first.</param>
    public static UnitReturn Of(UnitReturn sealedReturn, IEnumerable<SealedEntry> entries)
    {
        ArgumentNullException.ThrowIfNull(sealedReturn);
        ArgumentNullException.ThrowIfNull(entries);
        return entries.Select(e => e.Entry).OfType<Correction>().Aggregate(sealedReturn, With);
    }

    /// <summary>What a return holds of a fact; null where it holds nothing.</summary>
    /// <param name="of">The return.</param>
    /// <param name="fact">The fact.</param>
    /// <param name="item">Id of the item, for an answer of the inspection.</param>
    public static string? Get(UnitReturn of, CorrectedFact fact, string? item = null)
    {
        ArgumentNullException.ThrowIfNull(of);
        return fact switch
        {
            CorrectedFact.Serial => of.Serial,
            CorrectedFact.PartNumber => of.PartNumber,
            CorrectedFact.ReturnNumber => of.ReturnNumber,
            CorrectedFact.Symptom => BenchJson.Word(of.Symptom),
            CorrectedFact.FieldNote => of.FieldNote,
            CorrectedFact.Revision => of.Revision,
            CorrectedFact.DateCode => of.DateCode,
            CorrectedFact.DaysInService => of.DaysInService?.ToString(CultureInfo.InvariantCulture),
            CorrectedFact.Inspection => of.Answer(item ?? string.Empty),
            _ => throw new ArgumentOutOfRangeException(nameof(fact), fact, "no such fact"),
        };
    }

    /// <summary>Why a fact can't be set to a text; null when it can.</summary>
    /// <param name="fact">The fact.</param>
    /// <param name="to">The text; null for nothing.</param>
    /// <param name="profile">The profile of the unit's family.</param>
    /// <param name="item">Id of the item, for an answer of the inspection.</param>
    public static string? Refusal(CorrectedFact fact, string? to, Profile profile, string? item = null)
    {
        ArgumentNullException.ThrowIfNull(profile);
        if (fact == CorrectedFact.Inspection)
        {
            return Refusal(to, profile, item);
        }

        bool needed = fact is CorrectedFact.Serial or CorrectedFact.Symptom;
        if (string.IsNullOrWhiteSpace(to))
        {
            return needed ? $"a return has a {BenchJson.Word(fact)}; it can't be emptied" : null;
        }

        if (fact == CorrectedFact.Symptom && !Words.ContainsKey(to))
        {
            return $"'{to}' is no symptom; there are: {string.Join(", ", Words.Keys)}";
        }

        if (fact == CorrectedFact.DaysInService)
        {
            return int.TryParse(to, NumberStyles.None, CultureInfo.InvariantCulture, out int days) && days <= UnitReturn.MostDaysInService
                ? null
                : $"'{to}' is no number of days; a whole number from 0 to {UnitReturn.MostDaysInService} is allowed";
        }

        int most = fact == CorrectedFact.FieldNote ? MostNoteCharacters : LabelText.MostCharacters;
        return to.Length > most
            ? $"{to.Length} characters; at most {most} are allowed"
            : LabelText.FindUnprintable(to) is { } c ? $"it holds a character that can't be printed (U+{(int)c:X4})" : null;
    }

    private static string? Refusal(string? to, Profile profile, string? item)
    {
        InspectionItem? asked = profile.Inspection.FirstOrDefault(i => i.Id == item);
        return asked is null
            ? $"the arrival inspection of a {profile.Family} has no item '{item}'; there are: {string.Join(", ", profile.Inspection.Select(i => i.Id))}"
            : to is not null && asked.AllowedAnswers.Contains(to, StringComparer.Ordinal) ? null
            : $"'{to}' is no answer to '{item}'; allowed: {string.Join(", ", asked.AllowedAnswers)}";
    }

    private const int MostNoteCharacters = 500;

    private static readonly Dictionary<string, Symptom> Words = Enum.GetValues<Symptom>().ToDictionary(BenchJson.Word);

    private static UnitReturn With(UnitReturn held, Correction correction) => correction.Fact switch
    {
        CorrectedFact.Serial => held with { Serial = correction.To ?? held.Serial },
        CorrectedFact.PartNumber => held with { PartNumber = correction.To },
        CorrectedFact.ReturnNumber => held with { ReturnNumber = correction.To },
        CorrectedFact.Symptom => held with { Symptom = correction.To is { } word && Words.TryGetValue(word, out Symptom symptom) ? symptom : held.Symptom },
        CorrectedFact.FieldNote => held with { FieldNote = correction.To },
        CorrectedFact.Revision => held with { Revision = correction.To },
        CorrectedFact.DateCode => held with { DateCode = correction.To },
        CorrectedFact.DaysInService => held with
        {
            DaysInService = int.TryParse(correction.To, NumberStyles.None, CultureInfo.InvariantCulture, out int days) ? days : null,
        },
        CorrectedFact.Inspection => held with { Inspection = Answers(held.Inspection, correction) },
        _ => held,
    };

    private static IReadOnlyList<InspectionAnswer> Answers(IReadOnlyList<InspectionAnswer> held, Correction correction) =>
        correction is not { Item: { } item, To: { } to } ? held
        : held.Any(a => a.Item == item) ? [.. held.Select(a => a.Item == item ? a with { Answer = to } : a)]
        : [.. held, new InspectionAnswer(item, to)];
}

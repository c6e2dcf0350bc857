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
    public static string? Get(UnitReturn of, CorrectedFact fact)
    {
        ArgumentNullException.ThrowIfNull(of);
        return fact switch
        {
            CorrectedFact.Serial => of.Serial,
            CorrectedFact.PartNumber => of.PartNumber,
            CorrectedFact.ReturnNumber => of.ReturnNumber,
            CorrectedFact.Symptom => BenchJson.Word(of.Symptom),
            CorrectedFact.FieldNote => of.FieldNote,
            _ => throw new ArgumentOutOfRangeException(nameof(fact), fact, "no such fact"),
        };
    }

    /// <summary>Why a fact can't be set to a text; null when it can.</summary>
    public static string? Refusal(CorrectedFact fact, string? to)
    {
        bool needed = fact is CorrectedFact.Serial or CorrectedFact.Symptom;
        if (string.IsNullOrWhiteSpace(to))
        {
            return needed ? $"a return has a {BenchJson.Word(fact)}; it can't be emptied" : null;
        }

        if (fact == CorrectedFact.Symptom && !Words.ContainsKey(to))
        {
            return $"'{to}' is no symptom; there are: {string.Join(", ", Words.Keys)}";
        }

        int most = fact == CorrectedFact.FieldNote ? MostNoteCharacters : LabelText.MostCharacters;
        return to.Length > most
            ? $"{to.Length} characters; at most {most} are allowed"
            : LabelText.FindUnprintable(to) is { } c ? $"it holds a character that can't be printed (U+{(int)c:X4})" : null;
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
        _ => held,
    };
}

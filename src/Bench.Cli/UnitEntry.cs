using Bench.Model.Profiles;
using Bench.Model.Returns;

namespace Bench.Cli;

/// <summary>Checks what a person typed about a unit.</summary>
internal static class UnitEntry
{
    private const int MostLetters = 64;

    /// <summary>A return from its options.</summary>
    /// <exception cref="CliException">Something typed is not usable.</exception>
    public static UnitReturn Check(
        string? serial, Symptom symptom, string? part, string? returnNumber, string? note, Profile profile)
    {
        string checkedSerial = Text("--serial", serial, required: true)!;
        string? checkedPart = Text("--part", part, required: false);
        if (checkedPart is not null && !profile.PartNumbers.Contains(checkedPart, StringComparer.Ordinal))
        {
            throw new CliException(
                ExitCode.BadInput,
                $"--part {checkedPart}: the profile {profile.Family} is for {string.Join(", ", profile.PartNumbers)}; choose the unit's own profile");
        }

        return new UnitReturn
        {
            Serial = checkedSerial,
            Symptom = symptom,
            PartNumber = checkedPart,
            ReturnNumber = Text("--return-number", returnNumber, required: false),
            FieldNote = string.IsNullOrWhiteSpace(note) ? null : note.Trim(),
        };
    }

    private static string? Text(string option, string? value, bool required)
    {
        string? text = value?.Trim();
        if (string.IsNullOrEmpty(text))
        {
            return required
                ? throw new CliException(ExitCode.BadInput, $"{option}: empty; give the number on the unit's label (1 to {MostLetters} letters, digits or signs)")
                : null;
        }

        if (text.Length > MostLetters)
        {
            throw new CliException(ExitCode.BadInput, $"{option}: {text.Length} characters; at most {MostLetters} are allowed, as on the unit's label");
        }

        foreach (char c in text)
        {
            if (char.IsControl(c) || char.IsSurrogate(c) || char.GetUnicodeCategory(c) == System.Globalization.UnicodeCategory.Format)
            {
                throw new CliException(ExitCode.BadInput, $"{option}: holds the unprintable character U+{(int)c:X4}; type or scan it again");
            }
        }

        return text;
    }
}

using Bench.Model.Profiles;
using Bench.Model.Returns;

namespace Bench.Cli;

/// <summary>Checks what a person typed about a unit.</summary>
internal static class UnitEntry
{
    /// <summary>A return from what was given.</summary>
    /// <param name="serial">Serial number.</param>
    /// <param name="symptom">What the field reported.</param>
    /// <param name="part">Part number.</param>
    /// <param name="returnNumber">Return number.</param>
    /// <param name="note">What the field wrote.</param>
    /// <param name="profile">The profile it is to be tested under.</param>
    /// <param name="where">Where the serial number was given.</param>
    /// <exception cref="CliException">Something typed is not usable.</exception>
    public static UnitReturn Check(
        string? serial, Symptom symptom, string? part, string? returnNumber, string? note, Profile profile, string where = "--serial")
    {
        string checkedSerial = Text(where, serial, required: true)!;
        string? checkedPart = Text("--part", part, required: false);
        if (checkedPart is not null && !profile.PartNumbers.Contains(checkedPart, StringComparer.Ordinal))
        {
            throw new CliException(
                ExitCode.BadInput,
                $"{(where == "--serial" ? "" : where + ", ")}--part {checkedPart}: the profile {profile.Family} is for {string.Join(", ", profile.PartNumbers)}; choose the unit's own profile");
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
                ? throw new CliException(ExitCode.BadInput, $"{option}: empty; give the number on the unit's label (1 to {LabelText.MostCharacters} letters, digits or signs)")
                : null;
        }

        if (text.Length > LabelText.MostCharacters)
        {
            throw new CliException(ExitCode.BadInput, $"{option}: {text.Length} characters; at most {LabelText.MostCharacters} are allowed, as on the unit's label");
        }

        if (LabelText.FindUnprintable(text) is { } c)
        {
            throw new CliException(ExitCode.BadInput, $"{option}: holds the unprintable character U+{(int)c:X4}; type or scan it again");
        }

        return text;
    }
}

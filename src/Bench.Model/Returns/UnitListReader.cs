using Bench.Model.Configuration;

namespace Bench.Model.Returns;

/// <summary>Reads a units file (docs/units-file.md): the units to be tested at once, each with its position.</summary>
public static class UnitListReader
{
    /// <summary>Reads the bytes of a file.</summary>
    /// <param name="bytes">The file, UTF-8, at most 1 MiB.</param>
    /// <param name="fileName">Its name, for messages.</param>
    /// <param name="positions">Positions of the bench.</param>
    /// <exception cref="ConfigurationException">The file cannot be used; carries everything wrong in it.</exception>
    public static IReadOnlyList<ListedUnit> Read(ReadOnlySpan<byte> bytes, string fileName, IReadOnlyCollection<string> positions)
    {
        Section document = Section.Document(FileText.Of(bytes, fileName), fileName);
        FileKinds.Demand(document, fileName, FileKinds.Units);
        SchemaVersion.Check(document);

        UniqueNames places = new("position");
        UniqueNames serials = new("serial");
        UniqueNames returns = new("return");
        List<ListedUnit?> units = [.. document.Tables("unit", 1).Select(s => Read(s, positions, places, serials, returns))];
        document.Close();
        document.ThrowIfRefused();
        return [.. units.OfType<ListedUnit>()];
    }

    private static ListedUnit? Read(Section section, IReadOnlyCollection<string> positions, UniqueNames places, UniqueNames serials, UniqueNames returns)
    {
        string? position = section.Text("position");
        if (position is not null && !positions.Contains(position))
        {
            section.Refuse("position", null, $"the bench has no such position; {NearestName.Advice(position, positions)}");
        }

        places.Take(section, "position", position);
        string? taken = Label(section, "return", required: false);
        returns.Take(section, "return", taken);
        string? serial = Label(section, "serial", required: taken is null);
        serials.Take(section, "serial", serial);
        Symptom? symptom = section.Word<Symptom>("symptom", required: false);
        string? profile = section.Text("profile", required: false);
        string? part = Label(section, "part", required: false);
        string? number = Label(section, "return_number", required: false);
        string? note = section.Text("note", required: false);
        if (taken is not null && (serial, symptom, part, number, note) is not (null, null, null, null, null))
        {
            section.Refuse("return", null, "it brings serial, symptom, part, return_number and note; leave those out, or leave it out");
        }

        section.Close();
        return position is null || (serial is null && taken is null) ? null : new ListedUnit
        {
            Line = section.Line,
            Position = position,
            Serial = serial,
            Return = taken,
            Symptom = symptom,
            Profile = profile,
            PartNumber = part,
            ReturnNumber = number,
            FieldNote = note,
        };
    }

    private static string? Label(Section section, string key, bool required)
    {
        string? text = section.Text(key, required)?.Trim();
        if (text is not null && (text.Length > LabelText.MostCharacters || LabelText.FindUnprintable(text) is not null))
        {
            section.Refuse(key, null, $"1 to {LabelText.MostCharacters} printable characters, as on the unit's label, are allowed");
            return null;
        }

        return text;
    }
}

using System.Globalization;
using Bench.Model.Configuration;

namespace Bench.Model.Returns;

/// <summary>Reads an intake file (docs/cli.md): answers to the intake form, as TOML, and files to keep.</summary>
public static class IntakeFileReader
{
    /// <summary>Key of the files to keep.</summary>
    public const string Attach = "attach";

    /// <summary>Reads the bytes of a file.</summary>
    /// <param name="bytes">The file, UTF-8, at most 1 MiB.</param>
    /// <param name="fileName">Its name, for messages.</param>
    /// <param name="form">The form it answers.</param>
    /// <returns>Answers by key; not yet held against the form.</returns>
    /// <exception cref="ConfigurationException">The file cannot be used; carries everything wrong in it.</exception>
    public static Dictionary<string, IReadOnlyList<string>> Read(ReadOnlySpan<byte> bytes, string fileName, IntakeForm form)
    {
        ArgumentNullException.ThrowIfNull(form);
        Section document = Section.Document(FileText.Of(bytes, fileName), fileName);
        SchemaVersion.Check(document);
        Section? inspection = document.Table("inspection", required: false);
        Dictionary<string, IReadOnlyList<string>> answers = [];
        foreach (IntakeField field in form.Fields)
        {
            string[] path = field.Key.Split('.', 2);
            Section? section = path.Length == 2 ? inspection : document;
            string key = path[^1];
            if (section is null || !section.Has(key))
            {
                continue;
            }

            string? one = field.IsWhole ? section.Whole(key, 0, UnitReturn.MostDaysInService)?.ToString(CultureInfo.InvariantCulture)
                : field.Repeats ? null
                : section.Text(key);
            answers[field.Key] = field.Repeats ? section.Texts(key) ?? [] : one is null ? [] : [one];
        }

        if (document.Has(Attach))
        {
            answers[Attach] = document.Texts(Attach) ?? [];
        }

        inspection?.Close();
        document.Close();
        document.ThrowIfRefused();
        return answers;
    }
}

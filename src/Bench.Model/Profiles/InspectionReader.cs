using Bench.Model.Configuration;
using Bench.Model.Returns;

namespace Bench.Model.Profiles;

/// <summary>Reads the <c>[[inspection]]</c> tables.</summary>
internal static class InspectionReader
{
    private const int LeastAnswers = 2;

    public static IReadOnlyList<InspectionItem> ReadAll(Section document, UniqueNames remedies)
    {
        UniqueNames ids = new("inspection item");
        return [.. document.Tables("inspection").Select(section => Read(section, ids, remedies))];
    }

    private static InspectionItem Read(Section section, UniqueNames ids, UniqueNames remedies)
    {
        string? id = section.Id("id");
        ids.Take(section, "id", id);
        string? question = section.Text("question");
        IReadOnlyList<string>? answers = Answers(section);
        IReadOnlyList<string>? conforms = Among(section, "conforms", answers, required: true);
        if (conforms is not null && answers is not null && answers.All(conforms.Contains))
        {
            section.Refuse("conforms", null, "at least one answer must be that of a faulty unit");
        }

        string? means = section.Text("means");
        Severity? severity = section.Word<Severity>("severity");
        if (severity == Severity.Hold)
        {
            section.Refuse("severity", null, "\"repair\", \"scrap\" or \"note\" is allowed: an inspection is about the unit, and required = true holds one that nobody looked at");
        }

        string? remedy = section.Id("remedy", required: severity == Severity.Repair);
        if (severity is Severity.Scrap or Severity.Note && section.Has("remedy"))
        {
            section.Refuse("remedy", null, "a remedy goes with severity = \"repair\" only; remove it");
        }
        else
        {
            remedies.Expect(section, "remedy", remedy);
        }

        bool? required = section.Flag("required", required: false);
        IReadOnlyList<string>? forbids = Among(section, "forbids_energising", answers, required: false);
        if (forbids?.FirstOrDefault(a => conforms?.Contains(a) == true) is string sound)
        {
            section.Refuse("forbids_energising", null, $"\"{sound}\" conforms, and a sound unit may be energised");
        }

        section.Close();
        return new InspectionItem
        {
            Id = id ?? "",
            Question = question ?? "",
            Answers = answers ?? [],
            Conforms = conforms ?? [],
            Means = means ?? "",
            Severity = severity ?? default,
            Remedy = remedy,
            Required = required ?? false,
            ForbidsEnergising = forbids ?? [],
        };
    }

    private static IReadOnlyList<string>? Answers(Section section)
    {
        if (section.Texts("answers") is not { } answers)
        {
            return null;
        }

        if (answers.Count >= LeastAnswers && answers.Distinct(StringComparer.Ordinal).Count() == answers.Count
            && answers.All(a => Section.IsId(a) && a != InspectionAnswer.NotLooked))
        {
            return answers;
        }

        section.Refuse("answers", null, $"two or more different words of lower-case letters, digits and hyphens are allowed; \"{InspectionAnswer.NotLooked}\" is always there and not listed");
        return null;
    }

    private static IReadOnlyList<string>? Among(Section section, string key, IReadOnlyList<string>? answers, bool required)
    {
        if (!required && !section.Has(key))
        {
            return null;
        }

        IReadOnlyList<string>? chosen = section.Texts(key);
        if (answers is not null && chosen?.FirstOrDefault(c => !answers.Contains(c)) is string unknown)
        {
            section.Refuse(key, $"\"{unknown}\"", $"one or more of the answers are allowed; {NearestName.Advice(unknown, answers)}");
            return null;
        }

        return chosen;
    }
}

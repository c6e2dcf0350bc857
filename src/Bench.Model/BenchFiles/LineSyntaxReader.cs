using Bench.Model.Configuration;

namespace Bench.Model.BenchFiles;

/// <summary>Reads <c>[device.lines]</c>.</summary>
internal static class LineSyntaxReader
{
    /// <summary>Greatest length of a template; with its fields filled in a line stays below what a device buffers.</summary>
    private const int MostText = 200;

    public static LineSyntax Read(Section section)
    {
        LineSyntax syntax = new()
        {
            Terminator = section.Word<LineTerminator>("terminator", required: false) ?? LineTerminator.Crlf,
            Switch = Template(section, "switch", [LineTemplate.Channel, LineTemplate.State], []),
            Switched = Template(section, "switched", [], [LineTemplate.Channel, LineTemplate.State, LineTemplate.Any]),
            AskState = Template(section, "ask_state", [LineTemplate.Channel], []),
            State = Template(section, "state", [LineTemplate.State], [LineTemplate.Channel, LineTemplate.Any]),
            On = Word(section, "on") ?? "1",
            Off = Word(section, "off") ?? "0",
            AskValue = Template(section, "ask_value", [LineTemplate.Channel], []),
            Value = Template(section, "value", [LineTemplate.Value], [LineTemplate.Channel, LineTemplate.Any]),
        };
        Needs(section, "switch", "ask_state", "an output is read back");
        Needs(section, "switched", "switch", "it is the answer to that");
        Needs(section, "ask_state", "state", "it is the answer to that");
        Needs(section, "state", "ask_state", "it is the answer to that");
        Needs(section, "ask_value", "value", "it is the answer to that");
        Needs(section, "value", "ask_value", "it is the answer to that");
        if (!section.Has("ask_state") && !section.Has("ask_value"))
        {
            section.Refuse("", null, "ask_state or ask_value is required: a device that is never asked shows nothing");
        }

        if (syntax.On == syntax.Off)
        {
            section.Refuse(section.Has("off") ? "off" : "on", null, "on and off must be different words");
        }

        section.Close();
        return syntax;
    }

    /// <summary>Reads a template.</summary>
    /// <param name="section">Its table.</param>
    /// <param name="key">Its key.</param>
    /// <param name="required">Fields that it must have.</param>
    /// <param name="optional">Fields that it may have.</param>
    /// <param name="needed">Whether the key is required.</param>
    internal static LineTemplate? Template(Section section, string key, string[] required, string[] optional, bool needed = false)
    {
        if (section.Text(key, needed) is not string text)
        {
            return null;
        }

        string? wrong = text.Length > MostText ? $"at most {MostText} characters are allowed" : LineTemplate.TryRead(text, out _);
        _ = LineTemplate.TryRead(text, out LineTemplate? template);
        if (wrong is null && template is not null)
        {
            string[] allowed = [.. required, .. optional];
            wrong = template.Fields.FirstOrDefault(f => !allowed.Contains(f)) is string unknown
                    ? $"there is no field {{{unknown}}} here; {NearestName.Advice(unknown, allowed)}"
                : required.FirstOrDefault(f => !template.Fields.Contains(f)) is string missing
                    ? $"the field {{{missing}}} is required"
                : null;
        }

        if (wrong is not null)
        {
            section.Refuse(key, null, wrong);
        }

        return template;
    }

    private static string? Word(Section section, string key)
    {
        string? word = section.Text(key, required: false);
        if (word is not null && !IsWord(word))
        {
            section.Refuse(key, null, "letters, digits and signs of ASCII without blanks are allowed, at most 32");
        }

        return word;
    }

    /// <summary>Whether a text may stand for a field: visible ASCII without blanks, at most 32.</summary>
    internal static bool IsWord(string text) => text.Length is > 0 and <= 32 && text.All(c => c is > ' ' and <= '~');

    private static void Needs(Section section, string key, string other, string why)
    {
        if (section.Has(key) && !section.Has(other))
        {
            section.Refuse(key, null, $"{other} is required beside it: {why}");
        }
    }
}

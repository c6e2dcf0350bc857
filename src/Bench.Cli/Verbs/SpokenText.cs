using System.CommandLine;
using Bench.Model.Returns;

namespace Bench.Cli.Verbs;

/// <summary>What a person says for the record: a name, a reason, a statement.</summary>
internal static class SpokenText
{
    /// <summary>Most characters.</summary>
    public const int MostCharacters = 500;

    /// <summary>The text of an option.</summary>
    /// <exception cref="CliException">It is empty, too long, or can't be printed.</exception>
    public static string Read(ParseResult options, Option<string> option)
    {
        string text = options.GetRequiredValue(option).Trim();
        return text.Length is 0 or > MostCharacters
            ? throw new CliException(ExitCode.BadInput, $"{option.Name}: {text.Length} characters; give 1 to {MostCharacters}")
            : LabelText.FindUnprintable(text) is { } c
                ? throw new CliException(ExitCode.BadInput, $"{option.Name}: it holds a character that can't be printed (U+{(int)c:X4}); leave it out")
                : text;
    }
}

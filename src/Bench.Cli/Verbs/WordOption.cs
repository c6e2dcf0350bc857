using System.CommandLine;
using System.CommandLine.Parsing;
using Bench.Model.Serialization;

namespace Bench.Cli.Verbs;

/// <summary>Reads an option whose value is one of our words (<see cref="BenchJson.Word"/>). The parser's own would take the number of a value, and any other number.</summary>
internal static class WordOption
{
    /// <summary>An option for a word.</summary>
    /// <param name="name">Its name.</param>
    /// <param name="helpName">The words, as help shows them.</param>
    /// <param name="description">What it is for.</param>
    public static Option<T?> Of<T>(string name, string helpName, string description)
        where T : struct, Enum => new(name) { Description = description, HelpName = helpName, CustomParser = Read<T> };

    /// <summary>The value of the word given; an error that names all words otherwise.</summary>
    public static T? Read<T>(ArgumentResult argument)
        where T : struct, Enum => Read(argument, Enum.GetValues<T>());

    /// <summary>The value of the word given, of some only; an error that names those otherwise.</summary>
    /// <param name="argument">What was typed.</param>
    /// <param name="allowed">Values that are allowed, two or more.</param>
    public static T? Read<T>(ArgumentResult argument, params T[] allowed)
        where T : struct, Enum
    {
        string text = argument.Tokens.Count == 1 ? argument.Tokens[0].Value : "";
        foreach (T value in allowed)
        {
            if (text.Equals(BenchJson.Word(value), StringComparison.OrdinalIgnoreCase))
            {
                return value;
            }
        }

        string[] words = [.. allowed.Select(v => $"'{BenchJson.Word(v)}'")];
        string option = argument.Parent is OptionResult { Option.Name: string name } ? name : argument.Argument.Name;
        argument.AddError($"{option} '{text}': give {string.Join(", ", words[..^1])} or {words[^1]}");
        return null;
    }
}

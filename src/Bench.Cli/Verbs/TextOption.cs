using System.CommandLine;

namespace Bench.Cli.Verbs;

/// <summary>Options whose value is a text, and giving many to a verb.</summary>
internal static class TextOption
{
    /// <summary>An option for a text.</summary>
    /// <param name="name">Its name.</param>
    /// <param name="helpName">What stands for the text in help.</param>
    /// <param name="description">What it is for.</param>
    public static Option<string?> Of(string name, string helpName, string description) => new(name) { Description = description, HelpName = helpName };

    /// <summary>Gives options to a verb.</summary>
    public static void AddAll(this Command command, IEnumerable<Option> options)
    {
        foreach (Option option in options)
        {
            command.Add(option);
        }
    }
}

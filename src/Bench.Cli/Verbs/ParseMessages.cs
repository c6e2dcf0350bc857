using System.CommandLine;

namespace Bench.Cli.Verbs;

/// <summary>What is wrong with a command line, in words.</summary>
internal static class ParseMessages
{
    /// <summary>The messages, at least one when there are errors.</summary>
    public static IEnumerable<string> Of(ParseResult parsed)
    {
        Command command = parsed.CommandResult.Command;
        if (command.Subcommands.Count > 0 && parsed.UnmatchedTokens is [{ } first, ..] && !first.StartsWith('-'))
        {
            // A word in a verb's place: the parser would say first that a verb is missing.
            return [$"'{first}' is no verb; {(command is RootCommand ? "bench" : $"bench {command.Name}")} knows {string.Join(", ", command.Subcommands.Select(c => c.Name))}."];
        }

        return parsed.Errors.Select(e => e.Message).Distinct();
    }
}

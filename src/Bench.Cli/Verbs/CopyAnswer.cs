using System.CommandLine;
using Bench.Cli.Output;

namespace Bench.Cli.Verbs;

/// <summary>What the verbs have in common that copy a store out and back: the file, and how they end.</summary>
internal static class CopyAnswer
{
    /// <summary>The argument that names the backup.</summary>
    /// <param name="description">What is done with it.</param>
    public static Argument<string> File(string description) => new("FILE") { Description = description };

    /// <summary>Prints what was copied, then what was wrong with it.</summary>
    /// <param name="options">What was given.</param>
    /// <param name="json">What <c>--json</c> prints.</param>
    /// <param name="text">What is printed else.</param>
    /// <param name="wrong">Sentences on what is missing or altered.</param>
    /// <returns>The exit code.</returns>
    public static Task<int> Of(ParseResult options, object json, string text, IReadOnlyCollection<string> wrong)
    {
        if (options.GetValue(CommonOptions.Json))
        {
            Terminal.Json(json);
        }
        else
        {
            Terminal.Result(text);
        }

        Terminal.Say("", wrong);
        return Task.FromResult(wrong.Count == 0 ? ExitCode.Done : ExitCode.BenchFault);
    }
}

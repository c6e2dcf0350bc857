using System.CommandLine;

namespace Bench.Cli.Verbs;

/// <summary>Turns what can go wrong in a verb into one message and an exit code, in one place.</summary>
internal static class VerbAction
{
    /// <summary>Sets a verb's action.</summary>
    public static void SetGuardedAction(this Command command, Func<ParseResult, Task<int>> action) =>
        command.SetAction((result, _) => GuardAsync(result, action));

    private static async Task<int> GuardAsync(ParseResult result, Func<ParseResult, Task<int>> action)
    {
        try
        {
            return await action(result);
        }
        catch (Exception e) when (Failure.Of(e) is not null)
        {
            Failure failure = Failure.Of(e)!;
            failure.Say();
            return failure.ExitCode;
        }
    }
}

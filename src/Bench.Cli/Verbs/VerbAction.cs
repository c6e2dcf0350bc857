using System.CommandLine;
using Bench.Cli.Output;
using Bench.Model.Configuration;
using Bench.Model.Instruments;
using Bench.Model.Runs;
using Bench.Records;
using Bench.Running.Safety;

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
        catch (CliException e)
        {
            Terminal.Say(e.Message);
            return e.ExitCode;
        }
        catch (ConfigurationException e)
        {
            foreach (ConfigurationError error in e.Errors)
            {
                Terminal.Say(error.ToString());
            }

            Terminal.Say(e.Errors.Count == 1 ? "1 error; nothing was energised." : $"{e.Errors.Count} errors; nothing was energised.");
            return ExitCode.BadInput;
        }
        catch (StoreException e)
        {
            Terminal.Say(e.Message);
            return ExitCode.BadInput;
        }
        catch (JournalException e)
        {
            Terminal.Say($"The run was stopped because it can't be recorded: {e.Message}");
            return ExitCode.BenchFault;
        }
        catch (DeviceFaultException e)
        {
            Terminal.Say(e.Message);
            return ExitCode.BenchFault;
        }
        catch (OperationCanceledException)
        {
            Terminal.Say("Interrupted; no run was under way.");
            return ExitCode.Interrupted;
        }
        catch (OutputNotConfirmedException e)
        {
            Terminal.Say(e.Message);
            return ExitCode.SafetyAbort;
        }
    }
}

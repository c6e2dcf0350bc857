using System.CommandLine;
using Bench.Cli.Output;
using Bench.Cli.Stopping;
using Bench.Devices.Positions;
using Bench.Model.BenchFiles;
using Bench.Model.Serialization;

namespace Bench.Cli.Verbs;

/// <summary><c>bench safe</c>: every output off, read back.</summary>
internal static class SafeVerb
{
    private static readonly Option<string> BenchOption = new("--bench") { Description = "Bench file (TOML)", HelpName = "FILE", Required = true };

    /// <summary>Gives the verb its options and action.</summary>
    public static void Fill(Command command)
    {
        command.Add(BenchOption);
        command.SetGuardedAction(RunAsync);
    }

    private static async Task<int> RunAsync(ParseResult options)
    {
        BenchFile bench = UserFiles.Bench(options.GetRequiredValue(BenchOption));
        TimeProvider time = TimeProvider.System;
        await using OpenBench devices = await PortTaking.OpenAsync(bench, time);
        IReadOnlyList<SafeStateResult> results = await devices.SwitchEverythingOffAsync(CancellationToken.None);
        bool allOff = results.All(r => r.ConfirmedOff);
        if (options.GetValue(CommonOptions.Json))
        {
            Terminal.Json(new
            {
                AllOff = allOff,
                Positions = results.Select(r => new { r.Position, State = r.State, r.ConfirmedOff, Fault = r.Fault?.Detail }),
            });
        }
        else
        {
            foreach (SafeStateResult result in results)
            {
                Terminal.Result(result.ConfirmedOff
                    ? $"{result.Position}: off, read back"
                    : $"{result.Position}: NOT CONFIRMED OFF ({result.Fault?.Detail ?? $"the board reads back {BenchJson.Word(result.State!.Value)}"})");
            }
        }

        if (!allOff)
        {
            Terminal.Say("Cut the supply with the emergency stop, then check relay board and link with 'bench check'.");
        }

        return allOff ? ExitCode.Done : ExitCode.SafetyAbort;
    }
}

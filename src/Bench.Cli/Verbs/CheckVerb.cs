using System.CommandLine;
using Bench.Cli.Checking;
using Bench.Cli.Output;
using Bench.Devices.Links;
using Bench.Devices.Positions;
using Bench.Model.BenchFiles;
using Bench.Model.Serialization;

namespace Bench.Cli.Verbs;

/// <summary><c>bench check</c>: asks every device of a bench; energises nothing.</summary>
internal static class CheckVerb
{
    private const int Reads = 50;
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
        await using OpenBench devices = await BenchDevices.OpenAsync(bench, new SystemLinkOpener(time), time, CancellationToken.None);
        IReadOnlyList<DeviceCheck> checks = await devices.CheckAsync(Reads, CancellationToken.None);
        IReadOnlyList<SafeStateResult> states = await devices.ReadEverythingBackAsync(CancellationToken.None);
        IReadOnlyList<CalibrationCheck> calibrations = CalibrationCheck.Of(bench, DateOnly.FromDateTime(time.GetLocalNow().DateTime));
        IReadOnlyList<string> mend = Mending.Of(checks, states, calibrations);

        if (options.GetValue(CommonOptions.Json))
        {
            Terminal.Json(new
            {
                Bench = bench.Name,
                Ok = mend.Count == 0,
                Devices = checks.Select(c => new
                {
                    c.Device,
                    c.Link,
                    c.Address,
                    c.Answered,
                    c.Reads,
                    c.Errors,
                    RoundTripP50Ms = c.RoundTripP50?.TotalMilliseconds,
                    RoundTripP99Ms = c.RoundTripP99?.TotalMilliseconds,
                    Fault = c.Fault?.Detail,
                }),
                Outputs = states.Select(s => new { s.Position, s.State, s.ConfirmedOff, Fault = s.Fault?.Detail }),
                Calibrations = calibrations,
                Mend = mend,
            });
        }
        else
        {
            Print(checks, states, calibrations, mend);
        }

        return checks.Any(c => !c.Answered || c.Errors > 0) || states.Any(s => !s.ConfirmedOff) ? ExitCode.BenchFault : ExitCode.Done;
    }

    private static void Print(
        IReadOnlyList<DeviceCheck> checks, IReadOnlyList<SafeStateResult> states, IReadOnlyList<CalibrationCheck> calibrations, IReadOnlyList<string> mend)
    {
        foreach (DeviceCheck c in checks)
        {
            Terminal.Result(c.RoundTripP50 is { } p50 && c.RoundTripP99 is { } p99
                ? FormattableString.Invariant($"{c.Device} (address {c.Address} on {c.Link}): answers, round trip {p50.TotalMilliseconds:0.0} ms, 99 % within {p99.TotalMilliseconds:0.0} ms, {c.Errors} of {c.Reads} reads failed")
                : $"{c.Device} (address {c.Address} on {c.Link}): {(c.Answered ? "refuses" : "NO ANSWER")} ({c.Fault?.Detail})");
        }

        foreach (SafeStateResult s in states)
        {
            Terminal.Result($"{s.Position}: outputs {(s.State is { } state ? BenchJson.Word(state) : "NOT READ BACK")}");
        }

        foreach (CalibrationCheck c in calibrations)
        {
            Terminal.Result(FormattableString.Invariant($"{c.Position} {c.Meter}: certificate {c.Certificate}, calibration due {c.DueOn:yyyy-MM-dd}{(c.Overdue ? " OVERDUE" : "")}"));
        }

        foreach (string line in mend)
        {
            Terminal.Say($"To mend: {line}");
        }

        if (mend.Count == 0)
        {
            Terminal.Result("Nothing to mend.");
        }
    }
}

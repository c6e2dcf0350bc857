using Bench.Cli.Logging;
using Bench.Cli.Output;
using Bench.Cli.Running;
using Bench.Devices.Positions;
using Bench.Model.BenchFiles;
using Bench.Model.Profiles;
using Bench.Model.Serialization;
using Bench.Running.Exercising;
using Serilog.Core;

namespace Bench.Cli.Checking;

/// <summary><c>bench check --exercise</c>.</summary>
internal static class Exercising
{
    /// <summary>Exercises the outputs of a position and prints what followed.</summary>
    /// <returns>The exit code.</returns>
    public static async Task<int> RunAsync(
        BenchFile bench, OpenBench devices, Profile profile, string? positionName, string? serial, bool yes,
        string dataFolder, TimeProvider time, bool json, CancellationToken cancel)
    {
        UnitPositionDescription position = PositionChoice.Of(bench, positionName, profile);
        using Logger log = RunLog.Open(dataFolder);
        ExerciseResult result = await new OutputExercise(new ExerciseRequest
        {
            Bench = bench,
            Description = position,
            Position = devices.Position(position.Name, profile.Ring),
            Profile = profile,
            UnitSerial = string.IsNullOrWhiteSpace(serial) ? null : serial.Trim(),
            Operator = new ConsoleOperator(yes),
            Record = new LoggedExercise(log, position.Name),
            Time = time,
        }).ExecuteAsync(cancel);
        if (json)
        {
            Terminal.Json(new { Position = position.Name, Unit = serial, result.End, result.Because, result.OutputsConfirmedOff, result.Pulses, result.Remarks });
        }
        else
        {
            Print(position.Name, serial, result);
        }

        return result.End switch
        {
            ExerciseEnd.Done => result.Remarks.Count == 0 ? ExitCode.Done : ExitCode.BenchFault,
            ExerciseEnd.NotConfirmed => ExitCode.BadInput,
            ExerciseEnd.Cancelled => ExitCode.Interrupted,
            ExerciseEnd.Unsafe => ExitCode.SafetyAbort,
            _ => ExitCode.BenchFault,
        };
    }

    private static void Print(string position, string? serial, ExerciseResult result)
    {
        Terminal.Result(serial is null ? $"{position}, no unit connected" : $"{position}, unit {serial} connected");
        foreach (OutputPulse p in result.Pulses)
        {
            string current = p.CurrentOnMs is { } on
                ? FormattableString.Invariant($"current after {on:0} ms, {p.PeakCurrentA:0.00} A at most, gone {p.CurrentOffMs:0} ms after off")
                : "no current";
            string turned = p.CountsTurned is { } counts ? FormattableString.Invariant($"; turned {counts} counts") : "";
            Terminal.Result(FormattableString.Invariant(
                $"  output {BenchJson.Word(p.Direction)}: acknowledged in {p.AcknowledgedMs:0.0} ms, reads back {BenchJson.Word(p.ReadBackOn)}; off and read back in {p.OffConfirmedMs:0.0} ms; {current}{turned}"));
        }

        foreach (string remark in result.Remarks)
        {
            Terminal.Result($"  To mend: {remark}");
        }

        if (result.Because is { } because)
        {
            Terminal.Say($"Ended before its time: {because}");
        }

        Terminal.Result(result.OutputsConfirmedOff ? "Outputs off, read back." : "OUTPUTS NOT CONFIRMED OFF: press the emergency stop, then 'bench safe'.");
    }
}

using System.CommandLine;
using Bench.Cli.Intakes;
using Bench.Cli.Logging;
using Bench.Cli.Output;
using Bench.Cli.Running;
using Bench.Cli.Signals;
using Bench.Devices.Links;
using Bench.Devices.Positions;
using Bench.Model.BenchFiles;
using Bench.Model.Returns;
using Bench.Model.Runs;
using Bench.Records;
using Bench.Records.Keys;
using Bench.Reporting.Text;
using Serilog.Core;

namespace Bench.Cli.Verbs;

/// <summary><c>bench run</c>: tests one unit, or several at once.</summary>
internal static class RunVerb
{
    private static readonly Option<string> BenchOption = new("--bench") { Description = "Bench file (TOML)", HelpName = "FILE", Required = true };
    private static readonly UnitOptions Units = new();
    private static readonly Option<bool> YesOption = new("--yes") { Description = "Confirm cautions and wiring of every unit; only for who has checked every line" };

    private static readonly Option<bool> InspectOnlyOption = new("--inspect-only") { Description = "Judge by the arrival inspection alone; opens no device, energises nothing" };

    /// <summary>Gives the verb its options and action.</summary>
    public static void Fill(Command command)
    {
        command.Add(BenchOption);
        Units.AddTo(command);
        command.Add(YesOption);
        command.Add(InspectOnlyOption);
        command.Validators.Add(result =>
        {
            // The parser leaves its own question out where another error was found, and all are told at once.
            if (result.GetResult(BenchOption) is null)
            {
                result.AddError("Option '--bench' is required.");
            }
        });
        command.SetGuardedAction(RunAsync);
    }

    private static async Task<int> RunAsync(ParseResult options)
    {
        BenchFile bench = UserFiles.Bench(options.GetRequiredValue(BenchOption));
        UnitOrder order = Units.Read(options);
        order = order with { FindReturn = number => TakenReturn.Find(options, number), Taken = order.Return is { } asked ? TakenReturn.Find(options, asked) : null };
        IReadOnlyList<PlannedUnit> units = order.Plan(bench);
        bool inspectOnly = options.GetValue(InspectOnlyOption);
        if (!inspectOnly && units.Select(u => (u, Why: ArrivalInspection.WhyNotToEnergise(u.Return, u.Profile))).FirstOrDefault(u => u.Why is not null) is ({ } forbidden, { } why))
        {
            throw new CliException(ExitCode.BadInput, $"unit {forbidden.Return.Serial}: {why}; nothing was energised. Give --inspect-only to judge it by its arrival inspection.");
        }

        string folder = DataFolder.Resolve(options.GetValue(CommonOptions.Data));
        TimeProvider time = TimeProvider.System;

        using StopSignals stop = new();
        using BenchKey? key = KeyFile.Load();
        using RecordStore store = RecordStore.Open(folder, time, key: key);
        using Logger log = RunLog.Open(folder);
        Interruptions.Report(store);
        WallClock.Report(store, time);
        foreach (PlannedUnit unit in units)
        {
            Terminal.Say("", EarlierVisits.Lines(store.EarlierVisits(unit.Return.Serial, time.GetUtcNow()), []));
        }

        if (inspectOnly)
        {
            IReadOnlyList<UnitResult> inspected = [.. units.Select(u => WithPacket(UnitRuns.Inspect(u, bench, store, log, time), store, folder))];
            Print(inspected, store, order.IsOfOne, options.GetValue(CommonOptions.Json));
            return RunExit.Worst(inspected.Select(r => r.ExitCode));
        }

        IReadOnlyList<UnitResult> results;
        await using (OpenBench devices = await BenchDevices.OpenAsync(bench, new SystemLinkOpener(time), time, stop.Token))
        using (IUnitsDisplay display = RunDisplay.For(units))
        {
            await devices.IdentifyAsync(stop.Token);
            using ConsoleOperator person = new(
                options.GetValue(YesOption), units.Count > 1 ? units.ToDictionary(u => u.Return.Serial, u => u.Position.Name) : null);
            results = await new UnitRuns(bench, devices, store, log, time, person, display).RunAsync(units, stop.Token);
        }

        // Only now: drawing its plots would take a core from whoever watches a motor.
        results = [.. results.Select(r => WithPacket(r, store, folder))];
        Print(results, store, order.IsOfOne, options.GetValue(CommonOptions.Json));
        return RunExit.Worst(results.Select(r => r.ExitCode));
    }

    private static UnitResult WithPacket(UnitResult result, RecordStore store, string folder) =>
        result.Record is { } record && store.Find(record.Start.Id.ToString()) is { } run
            ? result with { Packet = Packets.Write(store, run, Path.Combine(folder, "packets")) }
            : result;

    private static void Print(IReadOnlyList<UnitResult> results, RecordStore store, bool ofOne, bool json)
    {
        foreach (UnitResult result in results)
        {
            result.Failure?.Say();
        }

        if (json)
        {
            // One unit, asked for as one, is one object; where nothing of it was recorded, nothing is printed.
            if (!ofOne)
            {
                Terminal.Json(results.Select(r => r.Json));
            }
            else if (results[0].Record is not null)
            {
                Terminal.Json(results[0].Json);
            }

            return;
        }

        foreach (UnitResult result in results.Where(r => r.Record is not null))
        {
            SealedRun run = store.Find(result.Record!.Start.Id.ToString())!;
            Terminal.Result(VerdictText.Write(run, Terminal.Width));
            if (ofOne)
            {
                Terminal.Result($"Evidence packet: {result.Packet}");
            }
        }

        if (!ofOne)
        {
            Terminal.Result(UnitTable.Of(results));
        }
    }
}

using System.CommandLine;
using System.Diagnostics;
using Bench.Cli.Demonstrating;
using Bench.Cli.Intakes;
using Bench.Cli.Logging;
using Bench.Cli.Output;
using Bench.Cli.Running;
using Bench.Cli.Signals;
using Bench.Model.Entries;
using Bench.Model.Profiles;
using Bench.Model.Returns;
using Bench.Model.Runs;
using Bench.Model.Serialization;
using Bench.Records;
using Bench.Records.Keys;
using Serilog.Core;

namespace Bench.Cli.Verbs;

/// <summary><c>bench demo</c>: tests made-up returns in virtual time.</summary>
internal static class DemoVerb
{
    private static readonly Option<int> SeedOption = new("--seed") { Description = "Seed of the made-up units", HelpName = "N", DefaultValueFactory = _ => 1 };
    private static readonly Option<string?> OnlyOption = new("--only") { Description = "Only units of this condition", HelpName = "CONDITION" };

    /// <summary>Gives the verb its options and action.</summary>
    public static void Fill(Command command)
    {
        command.Add(SeedOption);
        command.Add(OnlyOption);
        command.SetGuardedAction(options => Task.FromResult(Run(options)));
    }

    private static int Run(ParseResult options)
    {
        string? only = options.GetValue(OnlyOption);
        DemoUnit[] units = [.. DemoReturns.All.Where(u => only is null || u.Condition == only)];
        if (units.Length == 0)
        {
            throw new CliException(ExitCode.BadInput, $"--only {only}: no unit of that condition; there are: {string.Join(", ", DemoReturns.All.Select(u => u.Condition).Distinct())}");
        }

        string folder = DataFolder.Resolve(options.GetValue(CommonOptions.Data));
        using StopSignals stop = new();
        using BenchKey? key = KeyFile.Load();
        using RecordStore store = RecordStore.Open(folder, TimeProvider.System, Durability.Relaxed, key: key);
        using Logger log = RunLog.Open(folder);
        Terminal.Say($"Simulated bench, made-up units; data in {folder}");

        TakenReturn[] taken = [.. units.Select(u => TakeIn(u, store))];
        DemoResult?[] results = new DemoResult?[units.Length];
        double[] busyS = new double[Math.Max(1, Math.Min(Environment.ProcessorCount, units.Length))];
        int next = -1;
        Exception? failure = null;
        Thread[] threads = [.. busyS.Select((_, worker) => new Thread(() =>
        {
            try
            {
                for (int i; (i = Interlocked.Increment(ref next)) < units.Length && !stop.Token.IsCancellationRequested;)
                {
                    results[i] = One(units[i], taken[i], (ulong)((options.GetValue(SeedOption) * 1000L) + i), store, log, folder, ref busyS[worker], stop.Token);
                }
            }
            catch (Exception e) when (e is not OutOfMemoryException)
            {
                failure = e;
            }
        }))];
        Array.ForEach(threads, t => t.Start());
        Array.ForEach(threads, t => t.Join());
        if (failure is not null)
        {
            System.Runtime.ExceptionServices.ExceptionDispatchInfo.Throw(failure);
        }

        DemoResult[] done = [.. results.OfType<DemoResult>()];
        if (options.GetValue(CommonOptions.Json))
        {
            Terminal.Json(done.Select(r => DemoJson.Of(r.Result, r.Right)));
        }
        else
        {
            Terminal.Result($"{done.Count(r => r.Right)} of {done.Length} dispositions are right for their condition. Packets: {Path.Combine(folder, "packets")}");
        }

        double factor = done.Sum(r => r.Result.DurationS) / Math.Max(busyS.Sum(), 1e-9);
        double peakMb = Process.GetCurrentProcess().PeakWorkingSet64 / 1e6;
        Terminal.Say(FormattableString.Invariant($"Virtual time: factor={factor:0} times real on one core; peak_mb={peakMb:0}"));
        return stop.Token.IsCancellationRequested ? ExitCode.Interrupted : ExitCode.Done;
    }

    // One after the other, so that the chain of entries has the same order each time.
    private static TakenReturn TakeIn(DemoUnit unit, RecordStore store)
    {
        Profile profile = ShippedProfiles.Get(unit.Family);
        UnitReturn given = unit.Return(profile);
        SealedEntry entry = store.TakeIn(unit.HasPhoto ? given with { Attachments = [store.Attach("drive-side.png", DrawnPhoto.Png())] } : given, profile);
        return new TakenReturn((ReturnEntry)entry.Entry, entry.Hash);
    }

    private static DemoResult One(
        DemoUnit unit, TakenReturn taken, ulong seed, RecordStore store, Logger log, string folder, ref double busyS, CancellationToken cancel)
    {
        TimeProvider clock = TimeProvider.System;
        long began = clock.GetTimestamp();
        RunRecord record = DemoRun.Run(unit, taken, seed, clock.GetUtcNow(), store, log, cancel);
        busyS += clock.GetElapsedTime(began).TotalSeconds;
        SealedRun run = store.Find(record.Start.Id.ToString())!;
        string packet = Packets.Write(store, run, Path.Combine(folder, "packets"));

        // A bad bench gives no disposition: held, or ended with the bench named as the reason.
        bool right = record.Abort is null or AbortReason.BenchFault && unit.Right.Contains(record.Judgement?.Disposition);
        string verdict = record.Judgement is { } j ? j.Disposition is { } d ? BenchJson.Word(d) : "held" : $"aborted ({record.AbortText})";
        Terminal.Say($"{unit.Serial}  {unit.Condition,-22}  {verdict,-11}  {record.Moves.Count,3} moves  {(right ? "right" : "WRONG")}");
        return new DemoResult(RunJson.Of(record, packet), right);
    }

    private sealed record DemoResult(RunJson Result, bool Right);
}

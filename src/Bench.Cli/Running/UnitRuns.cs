using Bench.Cli.Logging;
using Bench.Devices.Links;
using Bench.Devices.Positions;
using Bench.Model.BenchFiles;
using Bench.Model.Runs;
using Bench.Records;
using Bench.Running;
using Serilog;

namespace Bench.Cli.Running;

/// <summary>Runs units at once on one open bench: each has its own run, journal, gate and record; links and supplies are shared.</summary>
internal sealed class UnitRuns(
    BenchFile bench, OpenBench devices, RecordStore store, ILogger log, TimeProvider time, IOperator person, IUnitsDisplay display)
{
    /// <summary>Threads a run may hold at once: its own, which waits in place for answers, and the one that stores its samples.</summary>
    private const int ThreadsPerRun = 2;

    /// <summary>Runs them all; ends when the last has ended.</summary>
    public async Task<IReadOnlyList<UnitResult>> RunAsync(IReadOnlyList<PlannedUnit> units, CancellationToken cancel)
    {
        ConfirmationRound round = new(person, units.Count);
        int threads = ThreadsPerRun * units.Count;
        PoolRoom.Add(threads);
        try
        {
            // A thread each: a run whose devices answer in place would not let the next one begin.
            return await Task.WhenAll(units.Select((unit, i) => Task.Run(() => RunAsync(unit, i, round, cancel), CancellationToken.None)));
        }
        finally
        {
            PoolRoom.Add(-threads);
        }
    }

    private async Task<UnitResult> RunAsync(PlannedUnit unit, int place, ConfirmationRound round, CancellationToken cancel)
    {
        UnitResult result;
        try
        {
            RunRecord record = await RunSession.RunAsync(
                Start(unit, bench, store, time), devices.Position(unit.Position.Name, unit.Profile), store, log, time,
                round.For(place), display.Observer(place), devices.PowerAt(unit.Position.Name), cancel);
            result = new UnitResult(unit, record, null);
        }
        catch (Exception e) when (Failure.Of(e) is not null)
        {
            result = new UnitResult(unit, null, Failure.Of(e));
        }
        finally
        {
            round.Leave(place);
        }

        display.Ended(place, result);
        return result;
    }

    /// <summary>Judges a unit by its arrival inspection alone; no device is opened.</summary>
    public static UnitResult Inspect(PlannedUnit unit, BenchFile bench, RecordStore store, ILogger log, TimeProvider time)
    {
        RunStart start = Start(unit, bench, store, time);
        using IRunJournal journal = new LoggedJournal(store.Begin(start), start, log);
        return new UnitResult(unit, UntestedUnit.Judge(start, journal), null);
    }

    private static RunStart Start(PlannedUnit unit, BenchFile bench, RecordStore store, TimeProvider time)
    {
        DateTimeOffset now = time.GetUtcNow();
        return new RunStart
        {
            Id = Guid.CreateVersion7(now),
            StartedAt = now,
            Return = unit.Return,
            Bench = BenchSnapshot.Of(bench, unit.Position, store.HoursSinceDriven(bench.Name, unit.Position.Name)),
            Profile = unit.Profile,
            Software = RunSession.Software,
            Simulated = false,
        };
    }
}

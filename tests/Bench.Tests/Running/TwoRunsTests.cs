using Bench.Devices.Positions;
using Bench.Model.BenchFiles;
using Bench.Model.Judging;
using Bench.Model.Profiles;
using Bench.Model.Returns;
using Bench.Model.Runs;
using Bench.Running;
using Bench.Running.Sampling;
using Bench.Simulation.Benches;
using Bench.Simulation.Conditions;
using Bench.Simulation.Time;

namespace Bench.Tests.Running;

/// <summary>Two units at once on one bench: one bus, one board, one I/O block each.</summary>
public class TwoRunsTests : IOperator
{
    private readonly VirtualTime _time = new(new DateTimeOffset(2026, 6, 1, 8, 0, 0, TimeSpan.Zero));

    [Fact]
    public void Runs_TwoAtOnceOnOneBus_AreBothJudgedRightAtAboutHalfTheRate()
    {
        RunRecord alone = Assert.Single(Execute("healthy"));
        RunRecord[] both = Execute("healthy", "dead-sensors");

        Assert.Equal([Disposition.Reusable, Disposition.Repairable], both.Select(r => r.Judgement?.Disposition));
        Assert.Equal("dead-sensors", both[1].Judgement!.Causes[0].Id);
        Assert.All(both, r => Assert.True(r.OutputsConfirmedOff));
        Assert.InRange(both[0].Features!.PositionRateHz!.Value / alone.Features!.PositionRateHz!.Value, 0.45, 0.75);

        // Fewer sightings a pass, so the ring takes more passes; C5 knows, and calls no more healthy sensors missed.
        Assert.True(Revolutions(both[0]) > Revolutions(alone));
        Assert.True(both[0].Features!.Ring.Coverage >= VirtualRun.Diverter.Demonstration.RingCoverage);
        Assert.True(both[0].EndedAt - both[0].Start.StartedAt > alone.EndedAt - alone.Start.StartedAt);

        // Age and jitter are in the record, live half-widths included.
        Assert.True(both[0].Features!.Sampling!.Position.MedianIntervalS > alone.Features.Sampling!.Position.MedianIntervalS);
        Assert.InRange(alone.Features.Sampling.Position.InstantHalfWidthS!.Value, 1e-5, 0.002);
        Assert.InRange(alone.Features.Sampling.Meters.InstantHalfWidthS!.Value, 1e-5, 0.002);
    }

    [Fact]
    public void Rehearsal_OfOnePosition_HoldsTheRateOfARunAndSwitchesNothing()
    {
        (BenchFile file, SimulatedBench bench) = Bench("healthy");
        RehearsedPolling polling = _time.Run(async () =>
        {
            await using OpenBench devices = await BenchDevices.OpenAsync(file, new SimulatedLinkOpener(bench, _time), _time, default);
            return await PollRehearsal.RunAsync(devices.Position(StandardBench.Position(1), VirtualRun.Diverter.Ring), _time, TimeSpan.FromSeconds(3), default);
        });
        Assert.InRange(polling.PositionRateHz, 120, 160);
        Assert.Equal(polling.PositionRateHz / 3, polling.MeterRateHz, 1.0);
        Assert.False(bench.Unit(StandardBench.Position(1)).UpCoil);
        Assert.Equal(polling.Attempts, polling.Times.Position.Readings);
    }

    public ValueTask<bool> ConfirmAsync(
        string serial, IReadOnlyList<string> cautions, IReadOnlyList<string> wiring, CancellationToken cancel) => new(true);

    public ValueTask<bool> HasDoneAsync(HandWork work, string serial, string why, IReadOnlyList<string> steps, CancellationToken cancel) => new(true);

    private static double Revolutions(RunRecord run) => run.Features!.Ring.Passes.Average();

    private (BenchFile File, SimulatedBench Bench) Bench(params string[] conditions)
    {
        DriveKind[] drives = [.. conditions.Select(_ => DriveKind.Reversing)];
        BenchFile file = BenchFileReader.Read(StandardBench.OnSerialPort("/dev/ttyUSB0", drives, new DateOnly(2026, 3, 1)), "bench.toml");
        Dictionary<string, SimulatedUnit> units = [];
        for (int i = 0; i < conditions.Length; i++)
        {
            units[StandardBench.Position(i + 1)] = new SimulatedUnit(VirtualRun.Diverter, ConditionCatalog.Find(conditions[i]), (ulong)i + 1);
        }

        return (file, new SimulatedBench(file, units, _time, 1));
    }

    private RunRecord[] Execute(params string[] conditions)
    {
        (BenchFile file, SimulatedBench bench) = Bench(conditions);
        return _time.Run(async () =>
        {
            await using OpenBench devices = await BenchDevices.OpenAsync(file, new SimulatedLinkOpener(bench, _time), _time, default);
            return await Task.WhenAll(file.Positions.Select(p => new TestRun(new RunRequest
            {
                Start = Start(file, p),
                Position = devices.Position(p.Name, VirtualRun.Diverter.Ring),
                Journal = new MemoryJournal(),
                Time = _time,
                Operator = this,
            }).ExecuteAsync(default)));
        });
    }

    private RunStart Start(BenchFile file, UnitPositionDescription position) => new()
    {
        Id = Guid.CreateVersion7(_time.GetUtcNow()),
        StartedAt = _time.GetUtcNow(),
        Return = new UnitReturn { Serial = $"GH-{position.Name}", Symptom = Symptom.Intermittent },
        Bench = BenchSnapshot.Of(file, position, 0.1),
        Profile = VirtualRun.Diverter,
        Software = "test",
        Simulated = true,
    };
}

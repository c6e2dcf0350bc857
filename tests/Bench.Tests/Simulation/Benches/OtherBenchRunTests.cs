using Bench.Devices.Positions;
using Bench.Model.BenchFiles;
using Bench.Model.Moves;
using Bench.Model.Profiles;
using Bench.Model.Returns;
using Bench.Model.Runs;
using Bench.Running;
using Bench.Simulation.Benches;
using Bench.Simulation.Conditions;
using Bench.Simulation.Time;
using Bench.Tests.Model;
using Bench.Tests.Running;

namespace Bench.Tests.Simulation.Benches;

/// <summary>The same runner, unchanged, on benches of other devices: each move lands and the outputs end off.</summary>
public class OtherBenchRunTests : IOperator
{
    [Theory]
    [InlineData("line-boards", FeedbackKind.Ring)]
    [InlineData("programmable-supply", FeedbackKind.Ring)]
    [InlineData("other-feedbacks", FeedbackKind.Incremental)]
    [InlineData("streamed-current", FeedbackKind.Ring)]
    [InlineData("streamed-position", FeedbackKind.Ring)]
    public void Run_HealthyUnitAndShortRoutine_LandsEveryMove(string name, FeedbackKind feedback)
    {
        (RunRecord record, SimulatedBench simulated, string position) = Run(name, feedback);
        Assert.Null(record.Abort);
        Assert.True(record.Moves.Count >= 3, $"{record.Moves.Count} moves");
        Assert.Equal(MoveEnd.Landed, record.Moves[^1].End);
        Assert.False(simulated.Unit(position).UpCoil || simulated.Unit(position).DownCoil);
    }

    [Fact]
    public void Run_StreamOfCurrentFallsSilent_EndsAsABenchFaultAndTellsTheDelivery()
    {
        (RunRecord record, SimulatedBench simulated, string position) = Run(
            "streamed-current", FeedbackKind.Ring, (bench, time) => time.CreateTimer(_ => bench.Silence("shunt"), null, TimeSpan.FromSeconds(3), Timeout.InfiniteTimeSpan));
        Assert.Equal(AbortReason.BenchFault, record.Abort);
        Assert.Contains("none came within 40 ms", record.AbortText!, StringComparison.Ordinal);
        Assert.True(record.OutputsConfirmedOff);
        Assert.False(simulated.Unit(position).UpCoil || simulated.Unit(position).DownCoil);
        Assert.True(record.Features!.Links.Single(l => l.Device == "shunt").Stream!.Frames > 2000);
    }

    private (RunRecord Record, SimulatedBench Bench, string Position) Run(string name, FeedbackKind feedback, Action<SimulatedBench, VirtualTime>? meanwhile = null)
    {
        VirtualTime time = new(new DateTimeOffset(2026, 6, 1, 8, 0, 0, TimeSpan.Zero));
        BenchFile file = BenchFileReader.Read(RepositoryFiles.Text($"fixtures/benches/{name}.toml"), name);
        Profile profile = VirtualRun.Short with { Feedback = feedback };
        UnitPositionDescription position = file.Positions[0];
        SimulatedBench simulated = new(
            file, new Dictionary<string, SimulatedUnit> { [position.Name] = new(profile, ConditionCatalog.Find("healthy"), 3) }, time, seed: 3);
        meanwhile?.Invoke(simulated, time);
        RunRecord record = time.Run(async () =>
        {
            await using OpenBench bench = await BenchDevices.OpenAsync(file, new SimulatedLinkOpener(simulated, time), time, default);
            Assert.All(await bench.StartSuppliesAsync(default), s => Assert.True(s.On));
            RunRecord run = await new TestRun(new RunRequest
            {
                Start = Start(file, position, profile, time),
                Position = bench.Position(position.Name, profile),
                Journal = new MemoryJournal(),
                Time = time,
                Operator = this,
            }).ExecuteAsync(default);
            Assert.All(await bench.SwitchEverythingOffAsync(default), s => Assert.True(s.ConfirmedOff));
            return run;
        });

        return (record, simulated, position.Name);
    }

    ValueTask<bool> IOperator.ConfirmAsync(
        string serial, IReadOnlyList<string> cautions, IReadOnlyList<string> wiring, CancellationToken cancel) => new(true);

    ValueTask<bool> IOperator.HasDoneAsync(HandWork work, string serial, string why, IReadOnlyList<string> steps, CancellationToken cancel) => new(true);

    private static RunStart Start(BenchFile file, UnitPositionDescription position, Profile profile, VirtualTime time) => new()
    {
        Id = new Guid("018f0000-0000-7000-8000-000000000002"),
        StartedAt = time.GetUtcNow(),
        Return = new UnitReturn { Serial = "GH-2", Symptom = Symptom.Intermittent },
        Bench = BenchSnapshot.Of(file, position, 0.1),
        Profile = profile,
        Software = "test",
        Simulated = true,
    };
}

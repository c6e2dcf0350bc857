using Bench.Devices.Positions;
using Bench.Model.BenchFiles;
using Bench.Model.Instruments;
using Bench.Simulation.Benches;
using Bench.Simulation.Conditions;
using Bench.Simulation.Time;
using Bench.Tests.Model;

namespace Bench.Tests.Simulation.Benches;

/// <summary>The bench's own instruments meet simulated boards that talk lines.</summary>
public class LineBoardsTests
{
    [Fact]
    public void Instruments_OneMove_SeeWhatTheUnitDoes() => On(async (bench, unit, simulated, time) =>
    {
        double before = simulated.Unit("only").EncoderPosition;
        await unit.Drive.EnergiseAsync(
            new DrivePermit(time, DriveDirection.Up, TimeSpan.FromSeconds(1), TimeSpan.FromSeconds(9)), default);
        Assert.Equal(DriveState.Up, await unit.Drive.ReadBackAsync(default));
        await Task.Delay(TimeSpan.FromSeconds(1), time);
        MeterReading running = await unit.Meters.ReadAsync(default);
        await unit.Drive.SwitchOffAsync(default);
        await Task.Delay(TimeSpan.FromMilliseconds(300), time);
        FeedbackReading landed = await unit.Feedback.ReadAsync(default);

        Assert.Equal(DriveState.Off, await unit.Drive.ReadBackAsync(default));
        Assert.InRange(simulated.Unit("only").EncoderPosition - before, 220.0, 320.0);
        Assert.Equal(Families.Diverter.Ring.Place((long)Math.Round(simulated.Unit("only").EncoderPosition)), landed.Count);
        Assert.InRange(running.CurrentA, 0.15, 0.3);
        Assert.InRange(running.VoltageV, 23.7, 24.1);
        Assert.False(running.EmergencyStop);
        Assert.NotNull(running.Index);
        Assert.All(unit.Counts, c => Assert.Equal(0, c.Silent + c.Garbled + c.Refused));
        Assert.Equal(["feedback"], unit.Counts.Where(c => c.IsFeedback).Select(c => c.Device));
    });

    [Fact]
    public void Meters_BoardSilent_IsSaid() => On(async (_, unit, simulated, _) =>
    {
        simulated.Silence("meters");
        Assert.Equal(DeviceFaultKind.Silent, (await unit.Meters.ReadAsync(default)).Fault!.Kind);
        Assert.True((await unit.Feedback.ReadAsync(default)).Ok);
    });

    [Fact]
    public void Check_EveryDevice_Answers() => On(async (bench, _, _, _) =>
        Assert.All(await bench.CheckAsync(3, default), c => Assert.Equal((true, 0), (c.Answered, c.Errors))));

    private static void On(Func<OpenBench, IUnitPosition, SimulatedBench, VirtualTime, Task> test)
    {
        VirtualTime time = new(new DateTimeOffset(2031, 4, 5, 6, 0, 0, TimeSpan.Zero));
        BenchFile file = BenchFileReader.Read(RepositoryFiles.Text("fixtures/benches/line-boards.toml"), "bench.toml");
        SimulatedBench simulated = new(
            file,
            new Dictionary<string, SimulatedUnit> { ["only"] = new(Families.Diverter, ConditionCatalog.Find("healthy"), 4) },
            time,
            seed: 9);
        time.Run(async () =>
        {
            await using OpenBench bench = await BenchDevices.OpenAsync(file, new SimulatedLinkOpener(simulated, time), time, default);
            await using IUnitPosition unit = bench.Position("only", Families.Diverter.Ring);
            await test(bench, unit, simulated, time);
        });
    }
}

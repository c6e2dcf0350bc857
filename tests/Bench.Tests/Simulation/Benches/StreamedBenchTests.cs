using Bench.Devices.Positions;
using Bench.Model.BenchFiles;
using Bench.Model.Instruments;
using Bench.Simulation.Benches;
using Bench.Simulation.Conditions;
using Bench.Simulation.Faults;
using Bench.Simulation.Time;
using Bench.Tests.Model;

namespace Bench.Tests.Simulation.Benches;

/// <summary>Simulated devices that push frames, over the bench's own links.</summary>
public class StreamedBenchTests
{
    [Theory]
    [InlineData("streamed-current", "shunt", 1000)]
    [InlineData("streamed-position", "encoder", 5000)]
    public void Check_HealthyStream_TellsItsRateAndNoLoss(string name, string device, double rateHz) => On(name, null, async (bench, _, time) =>
    {
        DeviceCheck check = (await bench.CheckAsync(10, default)).Single(c => c.Device == device);
        Assert.True(check.Answered);
        Assert.Equal(0, check.Errors);
        Assert.Equal(3 * rateHz, check.Reads, 2.0);
        Assert.Equal(rateHz, check.Stream!.RateHz!.Value, 0.001 * rateHz);
        Assert.InRange(check.Stream.DelayP99Ms!.Value, 0, 0.2);
        Assert.Equal(0, time.PostsFromOtherThreads);
    });

    [Fact]
    public void Read_Streamed_ToldInstantIsTheFramesOwn() => On("streamed-position", null, async (bench, simulated, time) =>
    {
        IUnitPosition unit = bench.Position("only", Families.Diverter);
        await Task.Delay(TimeSpan.FromSeconds(1), time);
        FeedbackReading reading = await unit.Feedback.ReadAsync(default);
        Assert.Equal(simulated.Unit("only").ReportedCount, reading.Count);
        Assert.InRange((time.GetTimestamp() - reading.At) / (double)time.TimestampFrequency, 0, 0.0005);
        Assert.InRange(reading.AtUncertainty, 0.0001, 0.0003);
    });

    [Fact]
    public void Read_DeviceSilent_IsAFaultLikeAnyOther() => On("streamed-current", null, async (bench, simulated, time) =>
    {
        IUnitPosition unit = bench.Position("only", Families.Diverter);
        Assert.True((await unit.Meters.ReadAsync(default)).Ok);
        simulated.Silence("shunt");
        await Task.Delay(TimeSpan.FromMilliseconds(100), time);
        MeterReading reading = await unit.Meters.ReadAsync(default);
        Assert.Equal((DeviceFaultKind.Silent, "shunt"), (reading.Fault!.Kind, reading.Fault.Device));
        Assert.Contains("none came within 40 ms", reading.Fault.Detail, StringComparison.Ordinal);
        simulated.Silence("shunt", silent: false);
        await Task.Delay(TimeSpan.FromMilliseconds(10), time);
        Assert.True((await unit.Meters.ReadAsync(default)).Ok);
        Assert.InRange(unit.Counts.Single(c => c.Device == "shunt").Stream!.Lost, 95, 105);
    });

    [Fact]
    public void Check_BadWires_CountsWhatWasLostAndDamaged()
    {
        Fault[] faults =
        [
            new(FaultKind.Lost, 0, 60, 0.02, Side: WireSide.Answers),
            new(FaultKind.BitFlipped, 0, 60, 0.02, Side: WireSide.Answers),
            new(FaultKind.Doubled, 0, 60, 0.01, Side: WireSide.Answers),
        ];
        On("streamed-current", faults, async (bench, _, time) =>
        {
            DeviceCheck check = (await bench.CheckAsync(10, default)).Single(c => c.Device == "shunt");
            Assert.True(check.Answered);
            StreamDelivery stream = check.Stream!;
            Assert.InRange(stream.Lost / (double)check.Reads, 0.01, 0.03);
            Assert.InRange(stream.Damaged / (double)check.Reads, 0.01, 0.03);
            Assert.InRange(stream.Doubled / (double)check.Reads, 0.004, 0.02);
            Assert.Equal(0, stream.Restarted);
        });
    }

    private static void On(string name, IReadOnlyList<Fault>? faults, Func<OpenBench, SimulatedBench, VirtualTime, Task> test)
    {
        VirtualTime time = new(new DateTimeOffset(2031, 4, 5, 6, 0, 0, TimeSpan.Zero));
        BenchFile file = BenchFileReader.Read(RepositoryFiles.Text($"fixtures/benches/{name}.toml"), "bench.toml");
        SimulatedBench simulated = new(
            file, new Dictionary<string, SimulatedUnit> { ["only"] = new(Families.Diverter, ConditionCatalog.Find("healthy"), 4) }, time, seed: 9);
        FaultPlan? plan = faults is null ? null : new FaultPlan(3, faults);
        time.Run(async () =>
        {
            await using OpenBench bench = await BenchDevices.OpenAsync(file, new SimulatedLinkOpener(simulated, time, plan), time, default);
            await test(bench, simulated, time);
        });
    }
}

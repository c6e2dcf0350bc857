using Bench.Devices.Positions;
using Bench.Model.BenchFiles;
using Bench.Model.Instruments;
using Bench.Model.Profiles;
using Bench.Simulation.Benches;
using Bench.Simulation.Conditions;
using Bench.Simulation.Time;

namespace Bench.Tests.Simulation.Benches;

/// <summary>The bench's own instruments meet the simulated bench, as a run would.</summary>
public class OpenedBenchTests
{
    private static readonly string Name = StandardBench.Position(1);

    public static TheoryData<string> Links => ["serial", "tcp", "wide"];

    [Theory]
    [MemberData(nameof(Links))]
    public void Instruments_OneMove_SeeWhatTheUnitDoes(string link) => On(link, "healthy", async (bench, unit, time) =>
    {
        double before = bench.Unit(Name).EncoderPosition;
        await unit.Drive.EnergiseAsync(
            new DrivePermit(time, DriveDirection.Up, TimeSpan.FromSeconds(1), TimeSpan.FromSeconds(9)), default);
        Assert.Equal(DriveState.Up, await unit.Drive.ReadBackAsync(default));
        List<int> counts = [];
        List<double> currents = [];
        TimeSpan end = time.Elapsed + TimeSpan.FromSeconds(2);
        while (time.Elapsed < end)
        {
            FeedbackReading reading = await unit.Feedback.ReadAsync(default);
            Assert.True(reading.Ok);
            counts.Add(reading.Count);
            currents.Add((await unit.Meters.ReadAsync(default)).CurrentA);
        }

        await unit.Drive.SwitchOffAsync(default);
        await Task.Delay(TimeSpan.FromMilliseconds(300), time);
        FeedbackReading landed = await unit.Feedback.ReadAsync(default);
        MeterReading off = await unit.Meters.ReadAsync(default);

        Assert.Equal(DriveState.Off, await unit.Drive.ReadBackAsync(default));
        Assert.Equal(Families.Diverter.Ring.Place((long)Math.Round(bench.Unit(Name).EncoderPosition)), landed.Count);
        Assert.InRange(bench.Unit(Name).EncoderPosition - before, 480.0, 560.0);
        Assert.InRange(off.CurrentA, -0.02, 0.02);
        Assert.InRange(off.VoltageV, 23.9, 24.1);
        Assert.False(off.EmergencyStop);
        Assert.InRange(currents.Order().ElementAt(currents.Count / 2), 0.18, 0.27);
        Assert.InRange(counts.Count, 120, 2500);
        Assert.All(unit.Counts, c => Assert.Equal(0, c.Silent + c.Garbled + c.Refused));
        Assert.Equal(0, time.PostsFromOtherThreads);
    });

    // A device acts after the request (8 characters), the silence that ends it and half of its 0.3 ms.
    [Fact]
    public void Feedback_OneReading_TellsTheInstantItWasTaken() => On("serial", "healthy", async (_, unit, time) =>
    {
        await Task.Delay(TimeSpan.FromSeconds(1), time);
        long before = time.GetTimestamp();
        FeedbackReading reading = await unit.Feedback.ReadAsync(default);
        double saidAfterS = (reading.At - before) / (double)time.TimestampFrequency;
        Assert.Equal((8 * 10 / 115200.0) + 0.00175 + 0.00015, saidAfterS, reading.AtUncertainty + 1e-6);
        Assert.InRange(reading.AtUncertainty, 0.0, 0.0011);
    });

    [Fact]
    public void NoisyLink_ManyReadings_ShowsSilentAndGarbledOnBoth() => On("serial", "noisy-link", async (_, unit, _) =>
    {
        for (int i = 0; i < 300; i++)
        {
            await unit.Feedback.ReadAsync(default);
            await unit.Meters.ReadAsync(default);
        }

        Assert.All(unit.Counts, c => Assert.True(c.Silent > 3 && c.Garbled > 3));
    });

    private static void On(string link, string condition, Func<SimulatedBench, IUnitPosition, VirtualTime, Task> test)
    {
        VirtualTime time = new(new DateTimeOffset(2031, 4, 5, 6, 0, 0, TimeSpan.Zero));
        DateOnly calibrated = new(2031, 2, 3);
        BenchFile file = BenchFileReader.Read(
            link == "tcp" ? StandardBench.OnTcpPort("127.0.0.1", 15020, [DriveKind.Reversing], calibrated)
                : link == "wide" ? Wide(StandardBench.OnSerialPort("simulated", [DriveKind.Reversing], calibrated))
                : StandardBench.OnSerialPort("simulated", [DriveKind.Reversing], calibrated),
            "bench.toml");
        SimulatedBench bench = new(
            file,
            new Dictionary<string, SimulatedUnit> { [Name] = new(Families.Diverter, ConditionCatalog.Find(condition), 4) },
            time,
            seed: 9);
        time.Run(async () =>
        {
            await using OpenBench open = await BenchDevices.OpenAsync(file, new SimulatedLinkOpener(bench, time), time, default);
            await using IUnitPosition unit = open.Position(Name, Families.Diverter.Ring);
            await test(bench, unit, time);
        });
    }

    // Every number in two registers, in every form.
    private static string Wide(string text) => text
        .Replace("count = { device = \"feedback-1\", input_register = 0 }", "count = { device = \"feedback-1\", input_register = 0, type = \"uint32\", words = \"low-first\" }", StringComparison.Ordinal)
        .Replace("input_register = 0\nsigned = true\nscale_a = 0.001", "input_register = 5\ntype = \"float32\"\nscale_a = 1", StringComparison.Ordinal)
        .Replace("input_register = 1\nscale_v = 0.001", "input_register = 3\ntype = \"int32\"\nscale_v = 0.0001", StringComparison.Ordinal);
}

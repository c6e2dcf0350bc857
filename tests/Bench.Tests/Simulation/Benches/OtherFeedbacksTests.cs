using Bench.Devices.Positions;
using Bench.Model.BenchFiles;
using Bench.Model.Instruments;
using Bench.Simulation.Benches;
using Bench.Simulation.Conditions;
using Bench.Simulation.Time;
using Bench.Simulation.Units;
using Bench.Tests.Model;

namespace Bench.Tests.Simulation.Benches;

/// <summary>The bench's own instruments meet a simulated counter and simulated port switches.</summary>
public class OtherFeedbacksTests
{
    [Fact]
    public void Counter_OneMove_CountsFromHomeThroughItsWrap() => On("left", async (unit, plant, time) =>
    {
        double before = plant().EncoderPosition;
        Assert.Equal(200, (await unit.Feedback.ReadAsync(default)).Count);
        await unit.Drive.EnergiseAsync(Permit(time, DriveDirection.Down), default);
        TimeSpan end = time.Elapsed + TimeSpan.FromSeconds(5);
        while (time.Elapsed < end)
        {
            Assert.True((await unit.Feedback.ReadAsync(default)).Ok);
        }

        await unit.Drive.SwitchOffAsync(default);
        await Task.Delay(TimeSpan.FromMilliseconds(300), time);
        double travel = plant().EncoderPosition - before;
        int count = (await unit.Feedback.ReadAsync(default)).Count;
        Assert.InRange(travel, -1400.0, -1200.0); // more than a revolution, more than the counter's range of 4096 / 3200
        Assert.Equal(0.0, Families.Diverter.Ring.Difference(count, 200 + travel), 1.0);
        Assert.True(Assert.Single(unit.Counts, c => c.Device == "feedback-left").IsFeedback);
    });

    [Fact]
    public void Switches_OneTurn_AreClosedAtPortsOnly() => On("right", async (unit, plant, time) =>
    {
        await unit.Drive.EnergiseAsync(Permit(time, DriveDirection.Up), default);
        HashSet<int> seen = [];
        int between = 0;
        TimeSpan end = time.Elapsed + TimeSpan.FromSeconds(4);
        while (time.Elapsed < end)
        {
            FeedbackReading reading = await unit.Feedback.ReadAsync(default);
            if (reading.Ok)
            {
                seen.Add(reading.Count);
                Assert.Equal(0.0, Families.Diverter.Ring.Difference(plant().EncoderPosition, reading.Count), 6.0);
            }
            else
            {
                Assert.Equal(FeedbackStatus.BetweenPorts, reading.Status);
                between++;
            }
        }

        await unit.Drive.SwitchOffAsync(default);
        Assert.Equal([0, 200, 400, 600], seen.Order());
        Assert.True(between > 100);
    });

    [Fact]
    public void Switches_FeedbackSilent_IsSilent() => On("right", async (unit, _, _) =>
        Assert.Equal(FeedbackStatus.Silent, (await unit.Feedback.ReadAsync(default)).Status), silent: "feedback-right");

    [Fact]
    public void Position_SwitchesForARingAlone_SaysWhatIsMissing()
    {
        VirtualTime time = new(DateTimeOffset.UnixEpoch);
        (SimulatedBench simulated, BenchFile file) = Make(time);
        time.Run(async () =>
        {
            await using OpenBench bench = await BenchDevices.OpenAsync(file, new SimulatedLinkOpener(simulated, time), time, default);
            ArgumentException thrown = Assert.Throws<ArgumentException>(() => bench.Position("right", Families.Diverter.Ring));
            Assert.Contains("switches for the ports A, B, C, D, the unit has none that are known", thrown.Message, StringComparison.Ordinal);
        });
    }

    private static DrivePermit Permit(VirtualTime time, DriveDirection direction) =>
        new(time, direction, TimeSpan.FromSeconds(1), TimeSpan.FromSeconds(9));

    private static (SimulatedBench Bench, BenchFile File) Make(VirtualTime time)
    {
        BenchFile file = BenchFileReader.Read(RepositoryFiles.Text("fixtures/benches/other-feedbacks.toml"), "bench.toml");
        return (new SimulatedBench(
            file,
            file.Positions.ToDictionary(p => p.Name, _ => new SimulatedUnit(Families.Diverter, ConditionCatalog.Find("healthy"), 4)),
            time,
            seed: 9), file);
    }

    private static void On(string position, Func<IUnitPosition, Func<Plant>, VirtualTime, Task> test, string? silent = null)
    {
        VirtualTime time = new(new DateTimeOffset(2031, 4, 5, 6, 0, 0, TimeSpan.Zero));
        (SimulatedBench simulated, BenchFile file) = Make(time);
        if (silent is not null)
        {
            simulated.Silence(silent);
        }

        time.Run(async () =>
        {
            await using OpenBench bench = await BenchDevices.OpenAsync(file, new SimulatedLinkOpener(simulated, time), time, default);
            await using IUnitPosition unit = bench.Position(position, Families.Diverter);
            await test(unit, () => simulated.Unit(position), time);
        });
    }
}

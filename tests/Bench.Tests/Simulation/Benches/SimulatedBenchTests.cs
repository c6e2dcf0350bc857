using Bench.Devices.Links;
using Bench.Model.BenchFiles;
using Bench.Model.Instruments;
using Bench.Model.Profiles;
using Bench.Simulation.Benches;
using Bench.Simulation.Conditions;
using Bench.Simulation.Time;

namespace Bench.Tests.Simulation.Benches;

public class SimulatedBenchTests
{
    private const string Left = "position-1";
    private const string Right = "position-2";
    private static readonly DateTimeOffset Start = new(2031, 4, 5, 6, 0, 0, TimeSpan.Zero);

    [Fact]
    public void Link_ReadAtRest_SeesSupplyCountAndOpenInputs() => On("healthy", async (bench, master, _) =>
    {
        Assert.Equal([bench.Unit(Left).ReportedCount], await master.InputRegisters(11, 0, 1));
        int[] meters = await master.InputRegisters(1, 0, 3);
        Assert.InRange((short)meters[0], -20, 20);
        Assert.InRange(meters[1], 23_900, 24_100);
        Assert.Equal(0b10, meters[2] & 0b10);
    });

    [Fact]
    public void Link_CoilOn_TurnsTheUnitAndReadsBack() => On("healthy", async (bench, master, time) =>
    {
        double before = bench.Unit(Left).EncoderPosition;
        Assert.True(await master.Coil(0, true));
        await Wait(time, 500);
        Assert.Equal([1, 1, 1], await master.Ask(1, 1, 0, 0, 0, 2));
        int[] meters = await master.InputRegisters(1, 0, 3);
        Assert.InRange(meters[0], 150, 330);
        Assert.InRange(bench.Unit(Left).EncoderPosition - before, 90.0, 140.0);
        Assert.True(await master.Coil(0, false));
        await Wait(time, 300);
        Assert.Equal(0.0, bench.Unit(Left).MotorRadPerS);
    });

    // 8 characters out, 7 back at 10 bits each and 115200 baud; between them the silence that ends a frame above
    // 19200 baud (1.75 ms, Modbus over Serial Line V1.02, 2.5.1.1) and 0.3 ms.
    [Fact]
    public void Link_OneExchange_TakesItsTimeOnTheWire() => On("healthy", async (_, master, time) =>
    {
        TimeSpan before = time.Elapsed;
        await master.InputRegisters(11, 0, 1);
        Assert.Equal((15 * 10 / 115.2) + 1.75 + 0.3, (time.Elapsed - before).TotalMilliseconds, 0.001);
    });

    [Fact]
    public void Meter_ManyReadings_ScatterByItsStatedUncertainty() => On("healthy", async (_, master, _) =>
    {
        List<double> volts = [];
        for (int i = 0; i < 600; i++)
        {
            volts.Add(0.001 * (await master.InputRegisters(1, 0, 2))[1]);
        }

        double mean = volts.Average();
        double deviation = Math.Sqrt(volts.Sum(v => (v - mean) * (v - mean)) / (volts.Count - 1));
        Assert.Equal(24.0, mean, 0.005);
        Assert.InRange(deviation, 0.017, 0.023);
    });

    [Fact]
    public void Link_TwoPositions_TurnEachByItsOwnCoils() => On("healthy", async (bench, master, time) =>
    {
        double left = bench.Unit(Left).EncoderPosition;
        double right = bench.Unit(Right).EncoderPosition;
        Assert.True(await master.Coil(2, true));
        await Wait(time, 400);
        Assert.Equal(left, bench.Unit(Left).EncoderPosition);
        Assert.InRange(bench.Unit(Right).EncoderPosition - right, 60.0, 110.0);
        await master.Coil(2, false);
        await Wait(time, 300);
        Assert.Equal([bench.Unit(Right).ReportedCount], await master.InputRegisters(12, 0, 1));
    });

    [Theory]
    [InlineData("healthy")]
    [InlineData("noisy-link")]
    [InlineData("contaminated-sensors")]
    [InlineData("intermittent-connector")]
    public void Link_SameSeeds_SameBytes(string condition)
    {
        byte[] first = WholeRun(condition, 5);
        Assert.Equal(first, WholeRun(condition, 5));
        Assert.NotEqual(first, WholeRun(condition, 6));
    }

    [Fact]
    public void Link_TwoRunsOnTwoThreads_SameBytesAsEachAlone()
    {
        byte[][] together = [[], []];
        Thread[] threads = [.. Enumerable.Range(0, 2).Select(i => new Thread(() => together[i] = WholeRun("noisy-link", (ulong)i)))];
        Array.ForEach(threads, t => t.Start());
        Array.ForEach(threads, t => t.Join());
        Assert.Equal(WholeRun("noisy-link", 0), together[0]);
        Assert.Equal(WholeRun("noisy-link", 1), together[1]);
    }

    [Fact]
    public void NoisyLink_ManyExchanges_FailAboutTwiceTheFrameErrorShare() => On("noisy-link", async (_, master, _) =>
    {
        int failed = 0;
        for (int i = 0; i < 2000; i++)
        {
            failed += (await master.InputRegisters(i % 2 == 0 ? 11 : 1, 0, 1)).Length == 0 ? 1 : 0;
        }

        // 1 - (1 - p)² for p of 0.05 to 0.07, give or take four standard deviations.
        Assert.InRange(failed / 2000.0, 0.07, 0.165);
    });

    [Fact]
    public void DeadFeedback_Silent_BoardAnswersAndFeedbackDoesNot() => On("dead-feedback:silent", async (_, master, _) =>
    {
        Assert.Empty(await master.InputRegisters(11, 0, 1));
        Assert.Equal(3, (await master.InputRegisters(1, 0, 3)).Length);
    });

    [Fact]
    public void EmergencyStop_AtATime_ShowsAtTheInputAndOpensTheSupply() => On("healthy", async (bench, master, time) =>
    {
        await master.Coil(0, true);
        using ITimer stop = bench.EmergencyStopAt(TimeSpan.FromSeconds(1));
        await Wait(time, 990);
        Assert.Equal(0b10, (await master.InputRegisters(1, 2, 1))[0] & 0b10);
        await Wait(time, 1000);
        Assert.Equal(0, (await master.InputRegisters(1, 2, 1))[0] & 0b10);
        Assert.Equal(0.0, bench.Unit(Left).MotorRadPerS);
        Assert.InRange((await master.InputRegisters(1, 1, 1))[0], 0, 100);
    });

    [Fact]
    public void Silence_ADevice_NoAnswerUntilItIsWell() => On("healthy", async (bench, master, _) =>
    {
        bench.Silence(StandardBench.Board);
        Assert.Empty(await master.InputRegisters(1, 0, 1));
        Assert.Single(await master.InputRegisters(11, 0, 1));
        bench.Silence(StandardBench.Board, silent: false);
        Assert.Single(await master.InputRegisters(1, 0, 1));
    });

    // The plant is advanced only when someone looks: the drop must be at its own instant all the same.
    [Fact]
    public void Watchdog_NobodySpeaksToTheBoard_DropsItsOutputsAtItsInstant() => On("healthy", async (bench, master, time) =>
    {
        Assert.Equal(5, (await master.Ask(1, 6, 0, 0, 0, 100)).Length);
        Assert.Equal([3, 2, 0, 100], await master.Ask(1, 3, 0, 0, 0, 1));
        await master.Coil(0, true);
        DateTimeOffset spoken = time.GetUtcNow();
        double before = bench.Unit(Left).EncoderPosition;
        for (int i = 0; i < 300; i++)
        {
            await master.InputRegisters(11, 0, 1); // another device on the bus feeds nothing
        }

        await Wait(time, 2000);
        WatchdogDrop drop = Assert.Single(bench.TakeWatchdogDrops());
        Assert.Equal(("io", 1), (drop.Device, drop.Outputs));

        // Spoken to in the middle of the turnaround, before the answer came back: 8 characters and half of 0.3 ms.
        Assert.Equal(1000 - (80 / 115.2) - 0.15, (drop.At - spoken).TotalMilliseconds, 0.01);
        Assert.InRange(bench.Unit(Left).EncoderPosition - before, 240, 285);
        Assert.Equal([1, 1, 0], await master.Ask(1, 1, 0, 0, 0, 1));
    });

    [Fact]
    public void Watchdog_BoardIsSpokenTo_KeepsItsOutputs() => On("healthy", async (bench, master, time) =>
    {
        await master.Ask(1, 6, 0, 0, 0, 20);
        await master.Coil(0, true);
        for (int i = 0; i < 20; i++)
        {
            await Wait(time, 150);
            await master.InputRegisters(1, 0, 1);
        }

        Assert.Empty(bench.TakeWatchdogDrops());
        Assert.True(bench.Unit(Left).UpCoil);
    });

    [Fact]
    public void Watchdog_NotArmed_DropsNothing() => On("healthy", async (bench, master, time) =>
    {
        await master.Coil(0, true);
        await Wait(time, 5000);
        Assert.True(bench.Unit(Left).UpCoil);
    });

    [Theory]
    [InlineData(false)]
    [InlineData(true)]
    public void LosePower_BoardComesBack_WithItsOutputsOffOrAsTheyWereAndNoWatchdog(bool asTheyWere) => On("healthy", async (bench, master, time) =>
    {
        await master.Ask(1, 6, 0, 0, 0, 100);
        await master.Coil(0, true);
        await Wait(time, 300);
        bench.LosePower("io");
        Assert.Empty(await master.InputRegisters(1, 0, 1));
        await Wait(time, 300);
        Assert.False(bench.Unit(Left).UpCoil);
        bench.RestorePower("io", asTheyWere);
        Assert.Equal(asTheyWere, bench.Unit(Left).UpCoil);
        Assert.Equal([3, 2, 0, 0], await master.Ask(1, 3, 0, 0, 0, 1));
    });

    [Fact]
    public void CutSupply_InMidMove_VoltageIsGoneAndTheInputDoesNotSayWhy() => On("healthy", async (bench, master, time) =>
    {
        await master.Coil(0, true);
        await Wait(time, 300);
        bench.CutSupply();
        await Wait(time, 300);
        int[] meters = await master.InputRegisters(1, 0, 3);
        Assert.InRange(meters[1], 0, 100);
        Assert.Equal(0b10, meters[2] & 0b10);
        bench.CutSupply(false);
        await Wait(time, 300);
        Assert.NotEqual(0.0, bench.Unit(Left).MotorRadPerS);
    });

    [Fact]
    public void StickUp_CoilOff_ReadsBackOffButStillTurns() => On("healthy", async (bench, master, time) =>
    {
        await master.Coil(0, true);
        bench.StickUp(Left);
        await master.Coil(0, false);
        await Wait(time, 500);
        Assert.Equal([1, 1, 0], await master.Ask(1, 1, 0, 0, 0, 1));
        Assert.True((await master.InputRegisters(1, 0, 1))[0] > 150);
    });

    [Fact]
    public void Cut_OpenLink_BothWaysFailAndItCanBeOpenedAgain() => InVirtualTime("healthy", async (bench, opener, time) =>
    {
        ILink link = await opener.OpenAsync(bench.File.Links[0], CancellationToken.None);
        ValueTask<int> waiting = link.ReadAsync(new byte[8], CancellationToken.None);
        bench.Cut(StandardBench.Link);
        await Assert.ThrowsAsync<IOException>(async () => await waiting);
        await Assert.ThrowsAsync<IOException>(async () => await link.WriteAsync(new byte[8], CancellationToken.None));
        await link.DisposeAsync();
        await using ILink again = await opener.OpenAsync(bench.File.Links[0], CancellationToken.None);
        Assert.Single(await new RawMaster(again, time).InputRegisters(11, 0, 1));
    });

    [Fact]
    public void Open_LinkThatIsOpen_IsRefusedUntilItIsClosed() => InVirtualTime("healthy", async (bench, opener, _) =>
    {
        ILink link = await opener.OpenAsync(bench.File.Links[0], CancellationToken.None);
        DeviceFaultException e = await Assert.ThrowsAsync<DeviceFaultException>(
            async () => await opener.OpenAsync(bench.File.Links[0], CancellationToken.None));
        Assert.Contains("one owner", e.Message, StringComparison.Ordinal);
        await link.DisposeAsync();
        await (await opener.OpenAsync(bench.File.Links[0], CancellationToken.None)).DisposeAsync();
    });

    [Fact]
    public void New_UnitInAPositionTheFileLacks_NamesThoseThereAre()
    {
        BenchFile file = File();
        ArgumentException e = Assert.Throws<ArgumentException>(() => new SimulatedBench(
            file, new Dictionary<string, SimulatedUnit> { ["third"] = Unit("healthy", 1) }, new VirtualTime(Start), 1));
        Assert.Contains("'third'", e.Message, StringComparison.Ordinal);
        Assert.Contains("position-1, position-2", e.Message, StringComparison.Ordinal);
    }

    private static byte[] WholeRun(string condition, ulong seed)
    {
        byte[] heard = [];
        On(
            condition,
            async (_, master, time) =>
            {
                await master.Coil(0, true);
                while (time.Elapsed < TimeSpan.FromSeconds(20))
                {
                    await master.InputRegisters(11, 0, 1);
                    await master.InputRegisters(1, 0, 3);
                }

                heard = [.. master.Heard];
            },
            seed);
        return heard;
    }

    private static void On(string condition, Func<SimulatedBench, RawMaster, VirtualTime, Task> test, ulong seed = 1) =>
        InVirtualTime(
            condition,
            async (bench, opener, time) =>
            {
                await using ILink link = await opener.OpenAsync(bench.File.Links[0], CancellationToken.None);
                await test(bench, new RawMaster(link, time), time);
                Assert.Equal(0, time.PostsFromOtherThreads);
            },
            seed);

    private static void InVirtualTime(
        string condition, Func<SimulatedBench, SimulatedLinkOpener, VirtualTime, Task> test, ulong seed = 1)
    {
        VirtualTime time = new(Start);
        SimulatedBench bench = new(
            File(),
            new Dictionary<string, SimulatedUnit>
            {
                [Left] = Unit(condition, seed),
                [Right] = new SimulatedUnit(Families.Selector, new Healthy(), seed),
            },
            time,
            seed);
        time.Run(() => test(bench, new SimulatedLinkOpener(bench, time), time));
    }

    private static BenchFile File() => BenchFileReader.Read(
        StandardBench.OnSerialPort("simulated", [DriveKind.Reversing, DriveKind.Single], new DateOnly(2031, 2, 3)), "bench.toml");

    private static SimulatedUnit Unit(string condition, ulong seed) =>
        new(Families.Diverter, ConditionCatalog.Find(condition), seed);

    private static Task Wait(TimeProvider time, double ms) => Task.Delay(TimeSpan.FromMilliseconds(ms), time);
}

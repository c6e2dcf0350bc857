using Bench.Devices.Positions;
using Bench.Model.BenchFiles;
using Bench.Model.Instruments;
using Bench.Simulation.Benches;
using Bench.Simulation.Conditions;
using Bench.Simulation.Time;
using Bench.Tests.Model.BenchFiles;

namespace Bench.Tests.Simulation.Benches;

/// <summary>The watchdog of a simulated board that talks lines.</summary>
public class LineWatchdogRunTests
{
    [Fact]
    public void Watchdog_ArmedAndNobodySpeaks_DropsTheOutputs() => On(async (unit, simulated, time) =>
    {
        IWatchdog watchdog = Assert.Single(unit.Watchdogs);
        Assert.Equal(("relays", TimeSpan.FromSeconds(1)), (watchdog.Device, watchdog.Time));
        Assert.False(await watchdog.ReadArmedAsync(default));
        await watchdog.ArmAsync(default);
        Assert.True(await watchdog.ReadArmedAsync(default));
        await unit.Drive.EnergiseAsync(new DrivePermit(time, DriveDirection.Up, TimeSpan.FromSeconds(1), TimeSpan.FromSeconds(9)), default);
        for (int i = 0; i < 30; i++)
        {
            await Task.Delay(TimeSpan.FromMilliseconds(100), time);
            Assert.Equal(DriveState.Up, await unit.Drive.ReadBackAsync(default)); // which feeds it
        }

        await Task.Delay(TimeSpan.FromSeconds(1.5), time);
        Assert.Equal(1, Assert.Single(simulated.TakeWatchdogDrops()).Outputs);
        Assert.Equal(DriveState.Off, await unit.Drive.ReadBackAsync(default));
    });

    [Fact]
    public void Watchdog_BoardRestarted_IsNotArmed() => On(async (unit, simulated, _) =>
    {
        IWatchdog watchdog = Assert.Single(unit.Watchdogs);
        await watchdog.ArmAsync(default);
        simulated.Restart("relays");
        Assert.False(await watchdog.ReadArmedAsync(default));
    });

    [Fact]
    public void Watchdog_BoardSilent_IsAFault() => On(async (unit, simulated, _) =>
    {
        simulated.Silence("relays");
        DeviceFaultException arm = await Assert.ThrowsAsync<DeviceFaultException>(async () => await Assert.Single(unit.Watchdogs).ArmAsync(CancellationToken.None));
        Assert.Contains("to arm its watchdog", arm.Message, StringComparison.Ordinal);
        await Assert.ThrowsAsync<DeviceFaultException>(async () => await Assert.Single(unit.Watchdogs).ReadArmedAsync(CancellationToken.None));
    });

    private static void On(Func<IUnitPosition, SimulatedBench, VirtualTime, Task> test)
    {
        VirtualTime time = new(new DateTimeOffset(2031, 4, 5, 6, 0, 0, TimeSpan.Zero));
        BenchFile file = BenchFileReader.Read(LineWatchdogTests.Text, "bench.toml");
        SimulatedBench simulated = new(
            file, new Dictionary<string, SimulatedUnit> { ["only"] = new(Families.Diverter, ConditionCatalog.Find("healthy"), 4) }, time, seed: 9);
        time.Run(async () =>
        {
            await using OpenBench bench = await BenchDevices.OpenAsync(file, new SimulatedLinkOpener(simulated, time), time, default);
            await test(bench.Position("only", Families.Diverter), simulated, time);
        });
    }
}

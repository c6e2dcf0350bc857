using Bench.Devices.Positions;
using Bench.Model.BenchFiles;
using Bench.Model.Instruments;
using Bench.Simulation.Benches;
using Bench.Simulation.Conditions;
using Bench.Simulation.Time;
using Bench.Tests.Model;

namespace Bench.Tests.Simulation.Benches;

/// <summary>The bench's own instruments meet a simulated programmable supply over its link.</summary>
public class ProgrammableSupplyTests
{
    [Fact]
    public void Supply_StartedAndSwitchedOff_FeedsAndMeasures() => On(async (bench, simulated) =>
    {
        await using IUnitPosition unit = bench.Position("only", Families.Diverter.Ring);
        Assert.InRange((await unit.Meters.ReadAsync(default)).VoltageV, -0.2, 0.2);

        Assert.Equal([new SupplyState("supply", true, null)], await bench.StartSuppliesAsync(default));
        MeterReading on = await unit.Meters.ReadAsync(default);
        Assert.InRange(on.VoltageV, 23.9, 24.1);
        Assert.InRange(on.CurrentA, -0.02, 0.02);
        Assert.False(on.EmergencyStop);
        Assert.Contains(unit.Counts, c => c is { Device: "supply", Link: "supply-line", Silent: 0, Garbled: 0, Refused: 0 });

        IReadOnlyList<SafeStateResult> safe = await bench.SwitchEverythingOffAsync(default);
        Assert.All(safe, s => Assert.True(s.ConfirmedOff));
        Assert.InRange((await unit.Meters.ReadAsync(default)).VoltageV, -0.2, 0.2);
    });

    [Fact]
    public void Supply_Silent_IsSaidAndTheRelaysAreConfirmedAllTheSame() => On(async (bench, simulated) =>
    {
        simulated.Silence("supply");
        SupplyState state = Assert.Single(await bench.StartSuppliesAsync(default));
        Assert.Equal((null, DeviceFaultKind.Silent), (state.On, state.Fault!.Kind));
        Assert.All(await bench.SwitchEverythingOffAsync(default), s => Assert.True(s.ConfirmedOff));
    });

    // A program that was killed in the midst of a stage leaves its voltage; the next one starts from the bench file's.
    [Fact]
    public void Supply_LeftAtAnotherVoltage_IsSetToItsOwnBeforeItIsSwitchedOn() => On(async (bench, simulated) =>
    {
        IBenchPower power = bench.PowerAt("only");
        await power.SwitchOnAsync(CancellationToken.None);
        await power.SetVoltageAsync(new SupplyPermit(TimeProvider.System, 20.5, TimeSpan.FromMinutes(1)), CancellationToken.None);
        Assert.Equal(20.5 / 24, simulated.Unit("only").SupplyShare, 3);

        Assert.Equal([new SupplyState("supply", true, null)], await bench.StartSuppliesAsync(CancellationToken.None));
        Assert.Equal(1.0, simulated.Unit("only").SupplyShare, 3);
    });

    [Fact]
    public void Supply_UsedByAnotherRun_IsNotSet() => On(async (bench, simulated) =>
    {
        IBenchPower one = bench.PowerAt("only"), other = bench.PowerAt("only");
        await one.SwitchOnAsync(CancellationToken.None);
        await other.SwitchOnAsync(CancellationToken.None);
        Assert.True(one.IsShared);
        SupplyPermit permit = new(TimeProvider.System, 20.5, TimeSpan.FromMinutes(1));
        await Assert.ThrowsAsync<PermitRefusedException>(() => one.SetVoltageAsync(permit, CancellationToken.None).AsTask());

        Assert.False(await other.SwitchOffAsync(outputsConfirmedOff: true, CancellationToken.None));
        await one.SetVoltageAsync(permit, CancellationToken.None);
        DeviceFaultException refused = await Assert.ThrowsAsync<DeviceFaultException>(() => other.SwitchOnAsync(CancellationToken.None).AsTask());
        Assert.Contains("set to another voltage", refused.Message, StringComparison.Ordinal);
        await one.RestoreVoltageAsync(CancellationToken.None);
        await other.SwitchOnAsync(CancellationToken.None);
        Assert.Equal(1.0, simulated.Unit("only").SupplyShare, 3);
    });

    [Fact]
    public void Check_Supply_Answers() => On(async (bench, _) =>
        Assert.All(await bench.CheckAsync(3, default), c => Assert.Equal((true, 0), (c.Answered, c.Errors))));

    private static void On(Func<OpenBench, SimulatedBench, Task> test)
    {
        VirtualTime time = new(new DateTimeOffset(2031, 4, 5, 6, 0, 0, TimeSpan.Zero));
        BenchFile file = BenchFileReader.Read(RepositoryFiles.Text("fixtures/benches/programmable-supply.toml"), "bench.toml");
        SimulatedBench simulated = new(
            file,
            new Dictionary<string, SimulatedUnit> { ["only"] = new(Families.Diverter, ConditionCatalog.Find("healthy"), 4) },
            time,
            seed: 9);
        time.Run(async () =>
        {
            await using OpenBench bench = await BenchDevices.OpenAsync(file, new SimulatedLinkOpener(simulated, time), time, default);
            await test(bench, simulated);
        });
    }
}

using Bench.Devices.Boards;
using Bench.Devices.Buses;
using Bench.Model.BenchFiles;
using Bench.Model.Instruments;

namespace Bench.Tests.Devices.Boards;

/// <summary>Power from one board, a target to one unit, under one permit.</summary>
public class CommandedDriveTests
{
    private readonly SteppedTime _time = new();
    private readonly Bus _bus;
    private readonly CommandedDrive _drive;
    private readonly CommandedDrive _absent;

    public CommandedDriveTests()
    {
        _bus = new Bus(_time);
        _drive = Drive(_bus.Second);
        _absent = Drive(new BusDevice(_bus.Owner, Bus.Description("unit", 3), isFeedback: true));
    }

    [Theory]
    [InlineData(DriveDirection.Up)]
    [InlineData(DriveDirection.Down)]
    public void Energise_AnyWay_PowersThenTellsTheTargetOnce(DriveDirection way) => _time.Run(async () =>
    {
        await _drive.EnergiseAsync(Permit(way, 300), CancellationToken.None);
        Assert.Equal(["0.3=1", "1.holding 4=150"], _bus.Writes); // two counts to a raw unit
        Assert.Equal((DriveState)(int)way, await _drive.ReadBackAsync(CancellationToken.None));
        Assert.True(_drive.CommandedOn);
    });

    [Fact]
    public void Energise_PermitWithoutTarget_PowersOnly() => _time.Run(async () =>
    {
        await _drive.EnergiseAsync(Permit(DriveDirection.Up, null), CancellationToken.None);
        Assert.Equal(["0.3=1"], _bus.Writes);
    });

    [Fact]
    public void Energise_AnswerToTheTargetLost_ReadsItBackAndWritesItNoMore() => _time.Run(async () =>
    {
        _bus.Loses = n => n == 2;
        await _drive.EnergiseAsync(Permit(DriveDirection.Up, 300), CancellationToken.None);
        Assert.Equal(["0.3=1", "1.holding 4=150"], _bus.Writes);
    });

    [Fact]
    public void Energise_AnswerToThePowerLost_ReadsItBackAndGoesOn() => _time.Run(async () =>
    {
        _bus.Loses = n => n == 1;
        await _drive.EnergiseAsync(Permit(DriveDirection.Up, 300), CancellationToken.None);
        Assert.Equal(["0.3=1", "1.holding 4=150"], _bus.Writes);
    });

    [Fact]
    public void Energise_UnitDoesNotTakeTheTarget_TakesItsPowerAway() => _time.Run(async () =>
    {
        DeviceFaultException thrown = await Assert.ThrowsAsync<DeviceFaultException>(
            () => _absent.EnergiseAsync(Permit(DriveDirection.Up, 300), CancellationToken.None).AsTask());
        Assert.Equal("unit", thrown.Fault.Device);
        Assert.Equal(["0.3=1", "0.3=0"], _bus.Writes);
        Assert.Equal(DriveState.Off, await _absent.ReadBackAsync(CancellationToken.None));
    });

    [Fact]
    public void Energise_PermitRunsOutAfterThePower_WritesNoTarget() => _time.Run(async () =>
    {
        // Power's answer and the first read-back are lost: 80 ms of the permit's 50 are gone.
        _bus.Loses = n => n <= 2;
        DeviceFaultException thrown = await Assert.ThrowsAsync<DeviceFaultException>(
            () => _drive.EnergiseAsync(Permit(DriveDirection.Up, 300), CancellationToken.None).AsTask());
        Assert.Contains("permit ran out", thrown.Message, StringComparison.Ordinal);
        Assert.Equal(["0.3=1", "0.3=0"], _bus.Writes);
    });

    [Fact]
    public void Energise_PermitExpired_WritesNothing() => _time.Run(async () =>
    {
        DrivePermit permit = Permit(DriveDirection.Up, 300);
        await Task.Delay(TimeSpan.FromMilliseconds(100), _time);
        await Assert.ThrowsAsync<PermitRefusedException>(() => _drive.EnergiseAsync(permit, CancellationToken.None).AsTask());
        Assert.Empty(_bus.Link.Sent);
    });

    [Fact]
    public void SwitchOff_UnitSilent_IsConfirmedByTheBoardAlone() => _time.Run(async () =>
    {
        _bus.Coils[0][3] = 1;
        await _absent.SwitchOffAsync(CancellationToken.None);
        Assert.Equal(DriveState.Off, await _absent.ReadBackAsync(CancellationToken.None));
        Assert.DoesNotContain(_bus.Link.Sent, f => f[0] == 3);
    });

    private CommandedDrive Drive(BusDevice unit) => new(
        new RelayDrive(new RelayCoil(_bus.First, 3), null), unit, new TargetDescription(new Channel(unit.Name, RegisterTable.HoldingRegister, 4), 2));

    private DrivePermit Permit(DriveDirection direction, int? target) =>
        new(_time, direction, TimeSpan.FromMilliseconds(50), TimeSpan.FromSeconds(9), target);
}

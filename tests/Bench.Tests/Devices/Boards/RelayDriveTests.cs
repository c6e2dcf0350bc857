using Bench.Devices.Boards;
using Bench.Model.Instruments;

namespace Bench.Tests.Devices.Boards;

public class RelayDriveTests
{
    private readonly SteppedTime _time = new();
    private readonly Bus _bus;
    private readonly RelayDrive _beside;
    private readonly RelayDrive _apart;
    private readonly RelayDrive _single;

    public RelayDriveTests()
    {
        _bus = new Bus(_time);
        _beside = new RelayDrive(new RelayCoil(_bus.First, 3), new RelayCoil(_bus.First, 2));
        _apart = new RelayDrive(new RelayCoil(_bus.First, 3), new RelayCoil(_bus.Second, 5));
        _single = new RelayDrive(new RelayCoil(_bus.First, 3), null);
    }

    [Fact]
    public void Energise_CoilsSideBySide_WritesBothInOneFrame() => _time.Run(async () =>
    {
        await _beside.EnergiseAsync(Permit(DriveDirection.Up), CancellationToken.None);
        Assert.Equal(["0.2=0", "0.3=1"], _bus.Writes);
        Assert.Single(_bus.Link.Sent);
        Assert.Equal(DriveState.Up, await _beside.ReadBackAsync(CancellationToken.None));
        Assert.True(_beside.CommandedOn);
    });

    [Fact]
    public void Energise_CoilsApart_SwitchesTheOtherOffFirst() => _time.Run(async () =>
    {
        await _apart.EnergiseAsync(Permit(DriveDirection.Down), CancellationToken.None);
        Assert.Equal(["0.3=0", "1.5=1"], _bus.Writes);
        Assert.Equal(DriveState.Down, await _apart.ReadBackAsync(CancellationToken.None));
    });

    [Fact]
    public void Energise_OtherDirectionNotConfirmedOff_EnergisesNothing() => _time.Run(async () =>
    {
        _bus.Loses = _ => true;
        await Assert.ThrowsAsync<DeviceFaultException>(() => _apart.EnergiseAsync(Permit(DriveDirection.Down), CancellationToken.None).AsTask());
        Assert.DoesNotContain("1.5=1", _bus.Writes);
    });

    [Fact]
    public void Energise_PermitExpired_WritesNothing() => _time.Run(async () =>
    {
        DrivePermit permit = Permit(DriveDirection.Up);
        await Task.Delay(TimeSpan.FromMilliseconds(100), _time);
        await Assert.ThrowsAsync<PermitRefusedException>(() => _beside.EnergiseAsync(permit, CancellationToken.None).AsTask());
        Assert.Empty(_bus.Link.Sent);
    });

    [Fact]
    public void Energise_PermitExpiresWhileInLine_WritesNothing() => _time.Run(async () =>
    {
        _bus.Loses = _ => true;
        Task<DriveState> slow = _single.ReadBackAsync(CancellationToken.None).AsTask();
        Task<DriveState> slower = _single.ReadBackAsync(CancellationToken.None).AsTask();
        await Assert.ThrowsAsync<PermitRefusedException>(
            () => _single.EnergiseAsync(Permit(DriveDirection.Up), CancellationToken.None).AsTask());
        await Assert.ThrowsAsync<DeviceFaultException>(() => slow);
        await Assert.ThrowsAsync<DeviceFaultException>(() => slower);
        Assert.Empty(_bus.Writes);
    });

    [Fact]
    public void Energise_PermitUsedBefore_WritesNothingMore() => _time.Run(async () =>
    {
        DrivePermit permit = Permit(DriveDirection.Up);
        await _beside.EnergiseAsync(permit, CancellationToken.None);
        await Assert.ThrowsAsync<PermitRefusedException>(() => _beside.EnergiseAsync(permit, CancellationToken.None).AsTask());
        Assert.Single(_bus.Link.Sent);
    });

    [Fact]
    public void Energise_DirectionTheDriveLacks_IsRefusedAndThePermitIsLeft() => _time.Run(async () =>
    {
        DrivePermit permit = Permit(DriveDirection.Down);
        await Assert.ThrowsAsync<PermitRefusedException>(() => _single.EnergiseAsync(permit, CancellationToken.None).AsTask());
        Assert.Empty(_bus.Link.Sent);
        permit.Take();
    });

    [Fact]
    public void Energise_AnswerLost_IsNeverSentAgain() => _time.Run(async () =>
    {
        _bus.Loses = _ => true;
        DeviceFaultException thrown = await Assert.ThrowsAsync<DeviceFaultException>(
            () => _beside.EnergiseAsync(Permit(DriveDirection.Up), CancellationToken.None).AsTask());
        Assert.Equal(DeviceFaultKind.Silent, thrown.Fault.Kind);
        Assert.Single(_bus.Link.Sent);
        Assert.True(_beside.CommandedOn);
    });

    [Fact]
    public void SwitchOff_FirstAnswerLost_IsSentAgain() => _time.Run(async () =>
    {
        await _beside.EnergiseAsync(Permit(DriveDirection.Up), CancellationToken.None);
        _bus.Loses = n => n == 2;
        await _beside.SwitchOffAsync(CancellationToken.None);
        Assert.Equal(3, _bus.Link.Sent.Count);
        Assert.Equal([0, 0], _bus.Coils[0][2..4]);
        Assert.False(_beside.CommandedOn);
    });

    [Fact]
    public void SwitchOff_OneBoardSilent_StillSwitchesTheOther() => _time.Run(async () =>
    {
        await _apart.EnergiseAsync(Permit(DriveDirection.Down), CancellationToken.None);
        int sent = _bus.Link.Sent.Count;
        _bus.Loses = n => n <= sent + 2;
        await Assert.ThrowsAsync<DeviceFaultException>(() => _apart.SwitchOffAsync(CancellationToken.None).AsTask());
        Assert.Equal(0, _bus.Coils[1][5]);
    });

    [Fact]
    public void ReadBack_BothCoilsOn_SaysBoth() => _time.Run(async () =>
    {
        _bus.Coils[0][2] = _bus.Coils[0][3] = 1;
        Assert.Equal(DriveState.Both, await _beside.ReadBackAsync(CancellationToken.None));
    });

    private DrivePermit Permit(DriveDirection direction) =>
        new(_time, direction, TimeSpan.FromMilliseconds(50), TimeSpan.FromSeconds(9));
}

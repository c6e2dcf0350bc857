using Bench.Devices.Boards;
using Bench.Devices.Lines;
using Bench.Model.BenchFiles;
using Bench.Model.Instruments;
using Bench.Tests.Devices.Lines;

namespace Bench.Tests.Devices.Boards;

/// <summary>The board's answers here are written by hand, not by the templates.</summary>
public class LineDriveTests
{
    private readonly SteppedTime _time = new();
    private readonly Dictionary<string, bool> _relays = new() { ["K1"] = false, ["K2"] = false };
    private readonly TextLine _line;
    private bool _quiet;
    private bool _quietOnSwitching;
    private bool _stuck;

    public LineDriveTests()
    {
        _line = new TextLine(_time, Board, "\r");
    }

    [Fact]
    public void Energise_Answered_SwitchesTheOtherOffFirstAndEachOnce() => _time.Run(async () =>
    {
        LineDrive drive = Drive(answers: true);
        await drive.EnergiseAsync(Permit(DriveDirection.Up), CancellationToken.None);
        Assert.Equal(["set K2 off", "set K1 on"], _line.Heard);
        Assert.True(drive.CommandedOn);
        Assert.Equal(DriveState.Up, await drive.ReadBackAsync(CancellationToken.None));
        await drive.SwitchOffAsync(CancellationToken.None);
        Assert.Equal(DriveState.Off, await drive.ReadBackAsync(CancellationToken.None));
        Assert.False(drive.CommandedOn);
    });

    [Fact]
    public void Energise_BoardThatAnswersNoSwitching_IsReadBackEachTime() => _time.Run(async () =>
    {
        await Drive(answers: false).EnergiseAsync(Permit(DriveDirection.Down), CancellationToken.None);
        Assert.Equal(["set K1 off", "get K1", "set K2 on", "get K2"], _line.Heard);
    });

    [Fact]
    public void Energise_RelayDoesNotFollow_IsAFaultAndSentOnce() => _time.Run(async () =>
    {
        _stuck = true;
        DeviceFaultException thrown = await Assert.ThrowsAsync<DeviceFaultException>(
            () => Drive(answers: false).EnergiseAsync(Permit(DriveDirection.Up), CancellationToken.None).AsTask());
        Assert.Contains("asked to switch K1 on, it reads back off", thrown.Message, StringComparison.Ordinal);
        Assert.Single(_line.Heard, "set K1 on");
    });

    [Fact]
    public void Energise_NoAnswer_IsSentOnceOnly() => _time.Run(async () =>
    {
        LineDrive drive = new(Relay("K1", answers: true), null);
        _quiet = true;
        await Assert.ThrowsAsync<DeviceFaultException>(() => drive.EnergiseAsync(Permit(DriveDirection.Up), CancellationToken.None).AsTask());
        Assert.Equal(["set K1 on"], _line.Heard);
        Assert.True(drive.CommandedOn);
    });

    [Fact]
    public void Energise_OtherDirectionNotConfirmedOff_EnergisesNothing() => _time.Run(async () =>
    {
        _quiet = true;
        await Assert.ThrowsAsync<DeviceFaultException>(() => Drive(answers: true).EnergiseAsync(Permit(DriveDirection.Up), CancellationToken.None).AsTask());
        Assert.DoesNotContain("set K1 on", _line.Heard);
    });

    [Fact]
    public void Energise_PermitExpired_SendsNothing() => _time.Run(async () =>
    {
        DrivePermit permit = Permit(DriveDirection.Up);
        await Task.Delay(TimeSpan.FromMilliseconds(200), _time);
        await Assert.ThrowsAsync<PermitRefusedException>(() => new LineDrive(Relay("K1", answers: true), null).EnergiseAsync(permit, CancellationToken.None).AsTask());
        Assert.Empty(_line.Heard);
    });

    [Fact]
    public void SwitchOff_NoAnswer_TriesEachTwiceAndSaysSo() => _time.Run(async () =>
    {
        _quiet = true;
        await Assert.ThrowsAsync<DeviceFaultException>(() => Drive(answers: true).SwitchOffAsync(CancellationToken.None).AsTask());
        Assert.Equal(["set K1 off", "set K1 off", "set K2 off", "set K2 off"], _line.Heard);
    });

    [Fact]
    public void ReadBack_AnswerForAnotherRelay_IsNoAnswer() => _time.Run(async () =>
    {
        _line.Answer = _ => "K9 is off";
        DeviceFaultException thrown = await Assert.ThrowsAsync<DeviceFaultException>(() => Drive(answers: true).ReadBackAsync(CancellationToken.None).AsTask());
        Assert.Equal(DeviceFaultKind.Garbled, thrown.Fault.Kind);
        Assert.Contains("got \"K9 is off\"", thrown.Message, StringComparison.Ordinal);
    });

    private DrivePermit Permit(DriveDirection direction) =>
        new(_time, direction, TimeSpan.FromMilliseconds(100), TimeSpan.FromSeconds(9));

    private LineDrive Drive(bool answers)
    {
        _quietOnSwitching = !answers;
        return new LineDrive(Relay("K1", answers), Relay("K2", answers));
    }

    private LineRelay Relay(string channel, bool answers) => new(
        new TemplatedDevice(_line.Device, new LineSyntax
        {
            Switch = Of("set {channel} {state}"),
            Switched = answers ? Of("{channel} is {state}") : null,
            AskState = Of("get {channel}"),
            State = Of("{channel} is {state}"),
            On = "on",
            Off = "off",
        }),
        channel);

    private static LineTemplate Of(string text)
    {
        _ = LineTemplate.TryRead(text, out LineTemplate? template);
        return template!;
    }

    private string? Board(string line)
    {
        string[] words = line.Split(' ');
        if (words[0] == "set" && !_stuck)
        {
            _relays[words[1]] = words[2] == "on";
        }

        return _quiet || (words[0] == "set" && _quietOnSwitching) ? null : $"{words[1]} is {(_relays[words[1]] ? "on" : "off")}";
    }
}

using Bench.Devices.Buses;
using Bench.Devices.Lines;
using Bench.Devices.Scpi;
using Bench.Model.Instruments;
using Bench.Tests.Devices.Lines;

namespace Bench.Tests.Devices.Scpi;

/// <summary>Answers here are written by hand, not by our own instrument, so that one mistake does not cancel out.</summary>
public class ScpiSupplyTests
{
    private readonly SteppedTime _time = new();
    private readonly Dictionary<string, string?> _answers = new()
    {
        ["SYST:ERR?"] = "+0,\"No error\"",
        ["SOUR:VOLT?"] = "2.4000E+01",
        ["SOUR:CURR?"] = "3.000",
        ["OUTP?"] = "1",
    };

    private readonly TextLine _line;
    private readonly ScpiDevice _device;
    private readonly ScpiSupply _supply;

    public ScpiSupplyTests()
    {
        _line = new TextLine(_time, m => _answers.GetValueOrDefault(m));
        _device = new ScpiDevice(_line.Device);
        _supply = new ScpiSupply(_device, 24.0, 3.0);
    }

    [Fact]
    public void Start_GoodSupply_SetsReadsBackAndOnlyThenSwitchesOn() => _time.Run(async () =>
    {
        await _supply.StartAsync(CancellationToken.None);
        Assert.Equal(
            ["*CLS", "*RST", "SOUR:VOLT 2.4E+01", "SOUR:VOLT?", "SOUR:CURR 3E+00", "SOUR:CURR?", "OUTP ON", "OUTP?"],
            _line.Heard.Where(m => m != "SYST:ERR?"));
        Assert.Equal(5, _line.Heard.Count(m => m == "SYST:ERR?")); // after each of the five commands
    });

    [Fact]
    public void Start_ReadsBackAnotherLimit_IsNeverSwitchedOn() => _time.Run(async () =>
    {
        _answers["SOUR:CURR?"] = "1.5";
        DeviceFaultException thrown = await Assert.ThrowsAsync<DeviceFaultException>(() => _supply.StartAsync(CancellationToken.None));
        Assert.Contains("SOUR:CURR was set to 3 A and reads back 1.5 A", thrown.Message, StringComparison.Ordinal);
        Assert.DoesNotContain("OUTP ON", _line.Heard);
    });

    [Fact]
    public void Start_CommandRefused_SaysTheFirstErrorAndEmptiesTheQueue() => _time.Run(async () =>
    {
        Queue<string> errors = new(["0,\"No error\"", "0,\"No error\"", "-222,\"Data out of range\"", "-221,\"Settings conflict\"", "0,\"No error\""]);
        _line.Answer = m => m == "SYST:ERR?" ? errors.Dequeue() : _answers.GetValueOrDefault(m);
        DeviceFaultException thrown = await Assert.ThrowsAsync<DeviceFaultException>(() => _supply.StartAsync(CancellationToken.None));
        Assert.Equal(DeviceFaultKind.Refused, thrown.Fault.Kind);
        Assert.Contains("asked SOUR:VOLT 2.4E+01, it refused: Data out of range (-222)", thrown.Message, StringComparison.Ordinal);
        Assert.Empty(errors);
    });

    [Fact]
    public void Start_OnNotConfirmed_IsSentOnceAndSwitchedOff() => _time.Run(async () =>
    {
        _answers["OUTP?"] = null;
        await Assert.ThrowsAsync<DeviceFaultException>(() => _supply.StartAsync(CancellationToken.None));
        Assert.Single(_line.Heard, "OUTP ON");
        Assert.Equal(2, _line.Heard.Count(m => m == "OUTP OFF"));
    });

    [Fact]
    public void SetVoltage_Allowed_IsSentOnceAndReadBack() => _time.Run(async () =>
    {
        _answers["SOUR:VOLT?"] = "20.5";
        await Settable().SetVoltageAsync(Permit(20.5), CancellationToken.None);
        Assert.Equal(["SOUR:VOLT 2.05E+01", "SOUR:VOLT?"], _line.Heard.Where(m => m != "SYST:ERR?"));
    });

    [Fact]
    public void SetVoltage_NotReadBack_IsAFaultAndIsNotRepeated() => _time.Run(async () =>
    {
        _answers["SOUR:VOLT?"] = null;
        await Assert.ThrowsAsync<DeviceFaultException>(() => Settable().SetVoltageAsync(Permit(20.5), CancellationToken.None).AsTask());
        Assert.Single(_line.Heard, "SOUR:VOLT 2.05E+01");
    });

    [Theory]
    [InlineData(17.9)]
    [InlineData(30.1)]
    [InlineData(double.NaN)]
    public void SetVoltage_OutsideTheBenchFilesRange_IsRefusedAndNothingIsSent(double volt) => _time.Run(async () =>
    {
        await Assert.ThrowsAsync<PermitRefusedException>(() => Settable().SetVoltageAsync(Permit(volt), CancellationToken.None).AsTask());
        await Assert.ThrowsAsync<PermitRefusedException>(() => _supply.SetVoltageAsync(Permit(24), CancellationToken.None).AsTask());
        Assert.Empty(_line.Heard);
    });

    [Fact]
    public void SetVoltage_PermitUsedOrExpired_IsRefusedAndNothingIsSent() => _time.Run(async () =>
    {
        SupplyPermit used = Permit(20.5);
        used.Take();
        await Assert.ThrowsAsync<PermitRefusedException>(() => Settable().SetVoltageAsync(used, CancellationToken.None).AsTask());
        SupplyPermit expired = new(_time, 20.5, TimeSpan.Zero);
        await Assert.ThrowsAsync<PermitRefusedException>(() => Settable().SetVoltageAsync(expired, CancellationToken.None).AsTask());
        Assert.Empty(_line.Heard);
    });

    [Fact]
    public void RestoreVoltage_FirstAnswerLost_IsTriedAgainAndReadBack() => _time.Run(async () =>
    {
        Queue<string?> answers = new([null, "24.0"]);
        _line.Answer = m => m == "SOUR:VOLT?" ? answers.Dequeue() : _answers.GetValueOrDefault(m);
        await Settable().RestoreVoltageAsync(CancellationToken.None);
        Assert.Equal(2, _line.Heard.Count(m => m == "SOUR:VOLT 2.4E+01"));
    });

    // SCPI-1999 volume 1, 6.2.5.2 (from memory): a numeric suffix on a keyword names one of several outputs.
    [Fact]
    public void Start_SecondOutput_IsNamedInEachCommand() => _time.Run(async () =>
    {
        _answers["SOUR2:VOLT?"] = "24";
        _answers["SOUR2:CURR?"] = "3";
        _answers["OUTP2?"] = "1";
        await new ScpiSupply(_device, 24.0, 3.0, channel: 2).StartAsync(CancellationToken.None);
        Assert.Equal(
            ["*CLS", "*RST", "SOUR2:VOLT 2.4E+01", "SOUR2:VOLT?", "SOUR2:CURR 3E+00", "SOUR2:CURR?", "OUTP2 ON", "OUTP2?"],
            _line.Heard.Where(m => m != "SYST:ERR?"));
    });

    [Fact]
    public void SwitchOff_OutputStaysOn_IsTriedTwiceAndSaid() => _time.Run(async () =>
    {
        DeviceFaultException thrown = await Assert.ThrowsAsync<DeviceFaultException>(() => _supply.SwitchOffAsync(CancellationToken.None));
        Assert.Contains("its output stays on", thrown.Message, StringComparison.Ordinal);
        Assert.Equal(2, _line.Heard.Count(m => m == "OUTP OFF"));
    });

    private ScpiSupply Settable() => new(_device, 24.0, 3.0, new SupplyRange(18, 30));

    private SupplyPermit Permit(double volt) => new(_time, volt, TimeSpan.FromMilliseconds(100));

    [Theory]
    [InlineData("9.9E37", DeviceFaultKind.Refused, "over range")]
    [InlineData("9.91E37", DeviceFaultKind.Refused, "no valid reading")]
    [InlineData("hello", DeviceFaultKind.Garbled, "got \"hello\"")]
    [InlineData(null, DeviceFaultKind.Silent, "no answer within 40 ms")]
    public void QueryNumber_NoNumber_IsAFaultAndNoValue(string? answer, DeviceFaultKind kind, string words) => _time.Run(async () =>
    {
        _answers["MEAS:CURR?"] = answer;
        (LineResult result, double value) = await _device.QueryNumberAsync(BusClass.Rest, "MEAS:CURR?", CancellationToken.None);
        Assert.Equal((kind, 0.0), (result.Fault, value));
        Assert.Contains(words, _line.Device.Fault(result, "MEAS:CURR?").Detail, StringComparison.Ordinal);
    });

    [Fact]
    public void QueryNumber_InstrumentDoesNotKnowIt_IsToldFromSilence() => _time.Run(async () =>
    {
        Queue<string> errors = new(["-113,\"Undefined header\"", "0,\"No error\""]);
        _line.Answer = m => m == "SYST:ERR?" ? errors.Dequeue() : null;
        (LineResult result, _) = await _device.QueryNumberAsync(BusClass.Rest, "MEAS:CURR?", CancellationToken.None);
        Assert.Equal((DeviceFaultKind.Refused, "Undefined header (-113)"), (result.Fault, result.Text));
    });
}

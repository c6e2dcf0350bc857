using Bench.Cli.Checking;
using Bench.Devices.Positions;
using Bench.Model.BenchFiles;
using Bench.Model.Instruments;

namespace Bench.Tests.Cli.Checking;

public class DeviceGradingTests
{
    private static readonly LinkDescription Link = new() { Name = "bus", Kind = LinkKind.Serial, Protocol = LinkProtocol.ModbusRtu };
    private static readonly DeviceDescription Device = new() { Name = "io", Link = "bus", Address = 1, TimeoutMs = 40 };

    // Exact intervals: 0 of 400 has the upper limit 1 - 0.025^(1/400) = 0.918 %.
    [Theory]
    [InlineData(0, "Good")]
    [InlineData(1, "Usable")]
    [InlineData(4, "Usable")]
    [InlineData(5, "Poor")]
    [InlineData(50, "Poor")]
    [InlineData(60, "Failing")]
    public void Of_ErrorsAmong400_GradesByShareAndInterval(int errors, string grade)
    {
        Graded graded = Of(Check(errors: errors));
        Assert.Equal(Enum.Parse<Grade>(grade), graded.Grade);
        Assert.Equal(graded.Grade == Grade.Good, graded.Reasons.Count == 0);
    }

    [Fact]
    public void ErrorShare_OfNone_HasTheExactUpperLimit()
    {
        ErrorShare share = ErrorShare.Of(0, 400);
        Assert.Equal((0.0, 0.0), (share.Share, share.Lower));
        Assert.Equal(1 - Math.Pow(0.025, 1 / 400.0), share.Upper, 1e-9);
    }

    // By the definition of Clopper and Pearson, each tail at its limit holds 2.5 %.
    [Fact]
    public void ErrorShare_OfFive_LeavesTwoAndAHalfPercentOnEachSide()
    {
        ErrorShare share = ErrorShare.Of(5, 400);
        Assert.Equal(0.025, Bench.Analysis.Statistics.BinomialLimits.LowerTail(5, 400, share.Upper), 1e-6);
        Assert.Equal(0.975, Bench.Analysis.Statistics.BinomialLimits.LowerTail(4, 400, share.Lower), 1e-6);
    }

    [Fact]
    public void Of_Silent_IsFailingAndAFeedbackAsksForItsUnit()
    {
        DeviceCheck silent = Check() with { Answered = false, RoundTripP50 = null, RoundTripP99 = null, Reads = 10, Errors = 10 };
        Assert.Equal(Grade.Failing, Of(silent).Grade);
        Assert.Contains("is a unit in place", Assert.Single(DeviceGrading.Of(silent, Device, Link, ofUnit: true).Reasons), StringComparison.Ordinal);
    }

    [Fact]
    public void Of_OnlyDamagedAnswers_AsksForSpeedAndParity()
    {
        DeviceFault fault = new(DeviceFaultKind.Garbled, "io", "bus", "damaged");
        DeviceCheck damaged = Check() with { Answered = false, RoundTripP50 = null, RoundTripP99 = null, Fault = fault };
        Assert.Contains("check speed and parity", Assert.Single(Of(damaged).Reasons), StringComparison.Ordinal);
    }

    [Fact]
    public void Of_RefusingEverything_IsFailingAndSaysWhatItRefused()
    {
        DeviceFault fault = new(DeviceFaultKind.Refused, "io", "bus", "it has no such address");
        Graded graded = Of(Check() with { RoundTripP50 = null, RoundTripP99 = null, Errors = 400, Fault = fault });
        Assert.Equal(Grade.Failing, graded.Grade);
        Assert.Contains("it has no such address", graded.Reasons[0], StringComparison.Ordinal);
    }

    [Fact]
    public void Of_AnswersNearTheTimeout_AreUsable()
    {
        Assert.Equal(Grade.Good, Of(Check(p99: 20)).Grade);
        Assert.Contains("time-out of 40 ms", Assert.Single(Of(Check(p99: 21)).Reasons), StringComparison.Ordinal);
    }

    [Fact]
    public void Of_AdapterThatGathersBytes_IsToldByWhatTheWireWouldTake() =>
        Assert.Contains("latency timer", Assert.Single(Of(Check(p50: 17, p99: 18)).Reasons), StringComparison.Ordinal);

    // 15 characters and 3.5 of silence at 1200 baud are 154 ms by themselves.
    [Fact]
    public void Of_SlowWire_IsNotBlamedOnTheAdapter() =>
        Assert.Equal(Grade.Good, DeviceGrading.Of(Check(p50: 156, p99: 160), Device with { TimeoutMs = 400 }, Link with { Baud = 1200 }, false).Grade);

    private static Graded Of(DeviceCheck check) => DeviceGrading.Of(check, Device, Link, ofUnit: false);

    private static DeviceCheck Check(int errors = 0, double p50 = 4, double p99 = 6) => new(
        "io", "bus", 1, true, null, DeviceGrading.Reads, errors, TimeSpan.FromMilliseconds(p50), TimeSpan.FromMilliseconds(p99));

    [Theory]
    [InlineData(1000.0, 1.0, 0, "Good", "")]
    [InlineData(1004.0, 1.0, 0, "Good", "")]
    [InlineData(500.0, 1.0, 0, "Poor", "it pushes 500.0 frames a second and the bench file says 1000.0")]
    [InlineData(1000.0, 25.0, 0, "Usable", "delivered more than 25.0 ms later")]
    [InlineData(1000.0, 1.0, 90, "Poor", "90 of 3000 reads failed")]
    public void Of_Stream_GradesByLossRateAndJitter(double rateHz, double delayMs, int lost, string grade, string reason)
    {
        StreamDescription stream = new() { FrameBytes = 12, Sync = [0xAA], SequenceOffset = 1, SequenceBits = 8, RateHz = 1000, Fields = [new StreamField("current", 2, FieldType.Int16)] };
        DeviceCheck check = new("shunt", "shunt-line", 0, true, null, 3000, lost, null, null)
        {
            Stream = new StreamDelivery(3000 - lost, lost, 0, 0, 0, 0, rateHz, delayMs, delayMs),
        };
        Graded graded = DeviceGrading.Of(check, Device with { Stream = stream }, Link, ofUnit: false);
        Assert.Equal(Enum.Parse<Grade>(grade), graded.Grade);
        Assert.Contains(reason, graded.Reasons.Count > 0 ? graded.Reasons[0] : "", StringComparison.Ordinal);
    }
}

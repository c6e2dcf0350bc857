using Bench.Cli.Checking;
using Bench.Devices.Positions;
using Bench.Model.BenchFiles;
using Bench.Model.Instruments;
using Bench.Model.Profiles;
using Bench.Simulation.Benches;

namespace Bench.Tests.Cli.Checking;

public class MendingTests
{
    private static readonly BenchFile File = BenchFileReader.Read(
        StandardBench.OnSerialPort("/dev/ttyUSB0", [DriveKind.Reversing], new DateOnly(2025, 6, 30)), "bench.toml"); // due 2026-06-30

    [Theory]
    [InlineData("2026-05-30", false, false)]
    [InlineData("2026-05-31", true, false)]
    [InlineData("2026-06-30", true, false)]
    [InlineData("2026-07-01", false, true)]
    public void Calibration_NearItsDay_IsWarnedOfThirtyDaysAheadAndOverdueTheDayAfter(string today, bool soon, bool overdue) =>
        Assert.All(CalibrationCheck.Of(File, DateOnly.Parse(today, null)), c => Assert.Equal((soon, overdue), (c.DueSoon, c.Overdue)));

    [Fact]
    public void Of_SeveralThings_AreInTheOrderOfWork()
    {
        BenchCondition found = new(
            [Device("io", errors: 8), Device("feedback-1", answered: false, ofUnit: true)],
            [],
            [new SafeStateResult("position-1", DriveState.Up, null)],
            CalibrationCheck.Of(File, new DateOnly(2026, 6, 20)));

        IReadOnlyList<string> mend = Mending.Of(found);

        Assert.False(found.CanRun);
        Assert.Equal(5, mend.Count);
        Assert.StartsWith("position-1: an output reads back up", mend[0], StringComparison.Ordinal);
        Assert.StartsWith("feedback-1: no answer at address 11 on bus: is a unit in place", mend[1], StringComparison.Ordinal);
        Assert.StartsWith("io: 8 of 400 reads failed", mend[2], StringComparison.Ordinal);
        Assert.EndsWith("due 2026-06-30, in 10 days: order it now", mend[3], StringComparison.Ordinal);
    }

    [Fact]
    public void Of_WholeLinkDead_SaysSoOnce()
    {
        BenchCondition found = new([Device("io", answered: false), Device("feedback-1", answered: false, ofUnit: true)], [], [], []);
        Assert.StartsWith("link bus: no device answers", Assert.Single(Mending.Of(found)), StringComparison.Ordinal);
    }

    [Fact]
    public void Of_GoodBench_IsNothing()
    {
        BenchCondition found = new([Device("io")], [], [new SafeStateResult("position-1", DriveState.Off, null)], []);
        Assert.Empty(Mending.Of(found));
        Assert.True(found.CanRun);
    }

    private static CheckedDevice Device(string name, bool answered = true, int errors = 0, bool ofUnit = false)
    {
        DeviceDescription description = File.Devices.Single(d => d.Name == name);
        TimeSpan? time = answered ? TimeSpan.FromMilliseconds(4) : null;
        DeviceCheck check = new(name, "bus", description.Address, answered, null, answered ? 400 : 10, answered ? errors : 10, time, time);
        return new CheckedDevice(check, ofUnit, DeviceGrading.Of(check, description, File.Links[0], ofUnit));
    }
}

using Bench.Model.Instruments;
using Bench.Model.Profiles;
using Bench.Model.Runs;
using Bench.Running.Safety;
using Bench.Simulation.Time;

namespace Bench.Tests.Running.Safety;

/// <summary>A gate with a drive, a watchdog and a record that do as they are told, in virtual time.</summary>
public abstract class GateTrial : IGateRecord
{
    private IReadOnlyList<IWatchdog> _watchdogs = [];

    private protected static TimeSpan Short { get; } = TimeSpan.FromSeconds(1);

    private protected static SafetyLimits Limits { get; } = new()
    {
        OverCurrentA = 2.6,
        DeadTimeMs = 60,
        NoMotionMs = 400,
        FeedbackLostMs = 120,
        MostOnMs = 9000,
        MostDuty = 0.5,
        DutyWindowS = 60,
    };

    private protected VirtualTime Time { get; } = new(DateTimeOffset.UnixEpoch);

    private protected FakeDrive Drive { get; } = new();

    private protected FakeWatchdog Watchdog { get; } = new();

    private protected List<(RunEventKind Kind, string Text, DriveState Then)> Events { get; } = [];

    private protected bool RecordIsFull { get; set; }

    void IGateRecord.WriteSoon(RunEventKind kind, string text) => Events.Add((kind, text, Drive.State));

    void IGateRecord.Write(RunEventKind kind, string text)
    {
        if (RecordIsFull)
        {
            throw new JournalException("disk full", new IOException());
        }

        Events.Add((kind, text, Drive.State));
    }

    private protected static Task On(SafetyGate gate, DriveDirection direction) => gate.SwitchOnAsync(direction, Short, default).AsTask();

    private protected void Try(Func<SafetyGate, Task> test, DriveKind kind = DriveKind.Reversing, SupplyRange? supply = null) => Time.Run(async () =>
        {
            using SafetyGate gate = new(Drive, _watchdogs, kind, Limits, null, Time, this, supply);
            await test(gate);
            return 0;
        });

    private protected void TryWithWatchdog(Func<SafetyGate, Task> test)
    {
        _watchdogs = [Watchdog];
        Try(test);
    }

    private protected void TryArmed(Func<SafetyGate, Task> test, DriveKind kind = DriveKind.Reversing) => Try(
        async gate =>
        {
            await gate.ConfirmSafeStateAsync();
            gate.Confirm("GH-1");
            await test(gate);
        },
        kind);
}

using Bench.Devices.Positions;
using Bench.Model.BenchFiles;
using Bench.Model.Instruments;
using Bench.Model.Profiles;
using Bench.Model.Runs;
using Bench.Running;
using Bench.Running.Exercising;
using Bench.Running.Safety;
using Bench.Simulation.Benches;
using Bench.Simulation.Conditions;
using Bench.Simulation.Time;
using Bench.Simulation.Units;

namespace Bench.Tests.Running.Exercising;

public sealed class OutputExerciseTests : IOperator, IGateRecord, IDisposable
{
    private static readonly string Name = StandardBench.Position(1);
    private readonly VirtualTime _time = new(new DateTimeOffset(2026, 6, 1, 8, 0, 0, TimeSpan.Zero));
    private readonly List<(RunEventKind Kind, string Text)> _events = [];
    private readonly CancellationTokenSource _cancel = new();
    private bool _confirms = true;
    private bool _everOn;
    private bool _everBoth;
    private IReadOnlyList<string> _wiring = [];

    [Fact]
    public void Exercise_NotConfirmed_EnergisesNothing()
    {
        _confirms = false;
        ExerciseResult result = Execute(unit: true);
        Assert.Equal(ExerciseEnd.NotConfirmed, result.End);
        Assert.Empty(result.Pulses);
        Assert.False(_everOn);
        Assert.DoesNotContain(_events, e => e.Text.EndsWith(": on", StringComparison.Ordinal));
    }

    [Fact]
    public void Exercise_HealthyUnit_TurnsEachWayAndNeverHasBothOn()
    {
        ExerciseResult result = Execute(unit: true);

        Assert.Equal((ExerciseEnd.Done, true), (result.End, result.OutputsConfirmedOff));
        Assert.Empty(result.Remarks);
        Assert.Equal([DriveDirection.Up, DriveDirection.Down], result.Pulses.Select(p => p.Direction));
        Assert.Equal([DriveState.Up, DriveState.Down], result.Pulses.Select(p => p.ReadBackOn));
        Assert.All(result.Pulses, p =>
        {
            Assert.Equal(DriveState.Off, p.ReadBackOff);
            Assert.InRange(p.CurrentOnMs!.Value, 3, 40); // a relay's 10 ms or so, to one meter reading
            Assert.InRange(p.CurrentOffMs!.Value, 0, 60);
        });
        Assert.InRange(result.Pulses[0].CountsTurned!.Value, 10, 50);
        Assert.InRange(result.Pulses[1].CountsTurned!.Value, -50, -10);
        Assert.True(_everOn);
        Assert.False(_everBoth);
        Assert.Contains(_wiring, l => l.Contains("WILL TURN", StringComparison.Ordinal));
    }

    [Fact]
    public void Exercise_EveryChangeOfOutput_IsTakenDownBeforeAndAfter()
    {
        Execute(unit: true);
        string[] up = [.. _events.Select(e => e.Text).SkipWhile(t => t != "drive up: on").Take(5)];
        Assert.Equal(["drive up: on", "drive up: acknowledged", "drive up: reads back up", "drive: off", "drive: off, read back"], up);
    }

    [Fact]
    public void Exercise_NoUnit_ReadsBackOnAndOffWithoutCurrent()
    {
        ExerciseResult result = Execute(unit: false);
        Assert.Equal(ExerciseEnd.Done, result.End);
        Assert.All(result.Pulses, p => Assert.Equal((null, null), (p.CurrentOnMs, p.CountsTurned)));
        Assert.Contains(_wiring, l => l.StartsWith("NO unit is connected", StringComparison.Ordinal));
    }

    [Fact]
    public void Exercise_UnitThereThoughNoneWasConfirmed_StopsAtTheFirstCurrent()
    {
        ExerciseResult result = Execute(unit: true, saidUnit: false);
        Assert.Equal((ExerciseEnd.Unsafe, true), (result.End, result.OutputsConfirmedOff));
        Assert.Contains("although no unit should be connected", result.Because, StringComparison.Ordinal);
        Assert.DoesNotContain(_events, e => e.Text == "drive down: on");
    }

    [Fact]
    public void Exercise_ContactWelded_IsUnsafeAndSaysSo()
    {
        ExerciseResult result = Execute(unit: true, before: bench => bench.StickUp(Name));
        Assert.Equal(ExerciseEnd.Unsafe, result.End);
        Assert.Contains("may be welded", result.Because, StringComparison.Ordinal);
        Assert.False(_everBoth);
    }

    [Fact]
    public void Exercise_EmergencyStopPressed_EnergisesNothing()
    {
        ExerciseResult result = Execute(unit: true, before: bench => bench.PressEmergencyStop());
        Assert.Equal(ExerciseEnd.Unsafe, result.End);
        Assert.False(_everOn);
    }

    [Fact]
    public void Exercise_BoardSilent_EnergisesNothing()
    {
        ExerciseResult result = Execute(unit: true, before: bench => bench.Silence("io"));
        Assert.Equal((ExerciseEnd.Unsafe, false), (result.End, result.OutputsConfirmedOff));
        Assert.False(_everOn);
    }

    [Fact]
    public void Exercise_CancelledWhileOn_IsOff()
    {
        ExerciseResult result = Execute(unit: true, cancelAtFirstOn: true);
        Assert.Equal((ExerciseEnd.Cancelled, true), (result.End, result.OutputsConfirmedOff));
    }

    [Fact]
    public void Exercise_OpenWinding_SaysThatNoCurrentFlowed() =>
        Assert.Contains(Execute(unit: true, condition: "open-winding").Remarks, r => r.Contains("no current flowed", StringComparison.Ordinal));

    [Fact]
    public void Exercise_SelectorOnAReversingPosition_IsOnlyTurnedItsWay()
    {
        ExerciseResult result = Execute(unit: true, profile: VirtualRun.Selector);
        Assert.Equal([DriveDirection.Up], result.Pulses.Select(p => p.Direction));
        Assert.Equal(ExerciseEnd.Done, result.End);
    }

    ValueTask<bool> IOperator.ConfirmAsync(string serial, IReadOnlyList<string> cautions, IReadOnlyList<string> wiring, CancellationToken cancel)
    {
        Assert.NotEmpty(cautions);
        Assert.False(_everOn);
        _wiring = wiring;
        return new(_confirms);
    }

    ValueTask<bool> IOperator.HasDoneAsync(HandWork work, string serial, string why, IReadOnlyList<string> steps, CancellationToken cancel) => new(true);

    void IGateRecord.Write(RunEventKind kind, string text) => _events.Add((kind, text));

    void IGateRecord.WriteSoon(RunEventKind kind, string text) => _events.Add((kind, text));

    public void Dispose() => _cancel.Dispose();

    private ExerciseResult Execute(
        bool unit, string condition = "healthy", bool? saidUnit = null, Profile? profile = null, Action<SimulatedBench>? before = null, bool cancelAtFirstOn = false)
    {
        profile ??= VirtualRun.Diverter;
        BenchFile file = BenchFileReader.Read(StandardBench.OnSerialPort("/dev/ttyUSB0", [DriveKind.Reversing], new DateOnly(2026, 3, 1)), "bench.toml");
        Dictionary<string, SimulatedUnit> units = unit ? new() { [Name] = new(profile, ConditionCatalog.Find(condition), 1) } : [];
        SimulatedBench bench = new(file, units, _time, 1);
        before?.Invoke(bench);
        using ITimer watch = _time.CreateTimer(
            _ =>
            {
                if (unit)
                {
                    Plant plant = bench.Unit(Name);
                    _everOn |= plant.UpCoil || plant.DownCoil;
                    _everBoth |= plant.UpCoil && plant.DownCoil;
                    if (cancelAtFirstOn && _everOn)
                    {
                        _cancel.Cancel();
                    }
                }
            },
            null,
            TimeSpan.Zero,
            TimeSpan.FromMilliseconds(0.5));
        return _time.Run(async () =>
        {
            await using OpenBench devices = await BenchDevices.OpenAsync(file, new SimulatedLinkOpener(bench, _time), _time, default);
            return await new OutputExercise(new ExerciseRequest
            {
                Bench = file,
                Description = file.Positions[0],
                Position = devices.Position(Name, profile.Ring),
                Profile = profile,
                UnitSerial = saidUnit ?? unit ? "GH-1" : null,
                Operator = this,
                Record = this,
                Time = _time,
            }).ExecuteAsync(_cancel.Token);
        });
    }
}

using Bench.Devices.Lines.Server;
using Bench.Devices.Links;
using Bench.Devices.Modbus.Server;
using Bench.Devices.Scpi;
using Bench.Model.BenchFiles;
using Bench.Simulation.Chance;
using Bench.Simulation.Units;

namespace Bench.Simulation.Benches;

/// <summary>
/// A bench with units in it, as its bench file describes it: the same file serves a real bench and this one.
/// What happens on it follows from the file, the units, the seed and the commands alone.
/// </summary>
/// <remarks>
/// Each position has a supply branch of its own, so one unit's current does not sag another's voltage.
/// In virtual time everything runs on the pump; in real time each link has its own thread, and a lock keeps them apart.
/// </remarks>
public sealed class SimulatedBench
{
    private readonly TimeProvider _time;
    private readonly long _start;
    private readonly Lock _lock = new();
    private readonly SeededRandom _random;
    private readonly SimulatedPosition[] _positions;
    private readonly DeviceRegisters _registers;
    private readonly SimulatedDevices _devices;
    private readonly Dictionary<string, SimulatedPosition> _feedbacks = [];
    private readonly Dictionary<string, SimulatedInstrument> _instruments = [];
    private readonly HashSet<string> _silenced = [];
    private readonly HashSet<string> _hidden = [];
    private readonly Dictionary<string, SimulatedLink> _open = [];
    private readonly Dictionary<string, SimulatedBoard> _boards;
    private readonly List<WatchdogDrop> _drops = [];
    private bool _emergencyStop;
    private bool _supplyCut;

    /// <summary>Makes a bench at rest.</summary>
    /// <param name="file">The bench file.</param>
    /// <param name="units">Units by name of position; a position not named stays empty.</param>
    /// <param name="time">Clock.</param>
    /// <param name="seed">Chance in the bench: meter noise and line errors.</param>
    /// <exception cref="ArgumentException">A unit is put into a position that the file does not have.</exception>
    public SimulatedBench(BenchFile file, IReadOnlyDictionary<string, SimulatedUnit> units, TimeProvider time, ulong seed)
    {
        ArgumentNullException.ThrowIfNull(file);
        ArgumentNullException.ThrowIfNull(units);
        ArgumentNullException.ThrowIfNull(time);
        string? lost = units.Keys.FirstOrDefault(name => file.Positions.All(p => p.Name != name));
        if (lost is not null)
        {
            throw new ArgumentException(
                $"the bench file has no position '{lost}'; it has: {string.Join(", ", file.Positions.Select(p => p.Name))}",
                nameof(units));
        }

        File = file;
        _time = time;
        _start = time.GetTimestamp();
        _random = new SeededRandom(seed);
        _positions = [.. file.Positions.Select(p => new SimulatedPosition(p, units.GetValueOrDefault(p.Name), _random))];
        _boards = file.Devices.ToDictionary(d => d.Name, d => new SimulatedBoard(d));
        _registers = new DeviceRegisters(file, _lock, SpeakTo);
        _devices = new SimulatedDevices(file, _registers);
        foreach (DeviceDescription device in file.Devices)
        {
            if (device.Watchdog is { } watchdog)
            {
                SimulatedBoard board = _boards[device.Name];
                Channel register = new(device.Name, RegisterTable.HoldingRegister, watchdog.HoldingRegister);
                _registers.Holds(register, value => board.WatchdogValue = value, () => board.WatchdogValue);
            }

            if (ProtocolOf(device) == LinkProtocol.Scpi)
            {
                _instruments[device.Name] = Instrument(device);
            }
        }

        foreach ((UnitPositionDescription description, SimulatedPosition position) in file.Positions.Zip(_positions))
        {
            Wire(description, position);
        }

        FeedPositions_NeedsLock();
    }

    /// <summary>The bench file.</summary>
    public BenchFile File { get; }

    /// <summary>Called when a relay's coil changes, at that instant; for whoever watches the bench from outside.</summary>
    public Action<OutputChange>? OutputChanged { get; set; }

    /// <summary>The unit in a position as it truly is, brought to the present: for tests and demonstrations, never for a judge.</summary>
    /// <exception cref="ArgumentException">There is no such position, or it is empty.</exception>
    public Plant Unit(string position)
    {
        lock (_lock)
        {
            AdvanceToPresent();
            return PlantOf(position);
        }
    }

    /// <summary>Presses the emergency stop: its input says so, and the supply of every position opens.</summary>
    public void PressEmergencyStop() => SetEmergencyStop(true);

    /// <summary>Releases the emergency stop.</summary>
    public void ReleaseEmergencyStop() => SetEmergencyStop(false);

    /// <summary>Presses the emergency stop after a time from now.</summary>
    /// <returns>The timer that will; dispose it to change one's mind.</returns>
    public ITimer EmergencyStopAt(TimeSpan fromNow) =>
        _time.CreateTimer(_ => PressEmergencyStop(), null, fromNow, Timeout.InfiniteTimeSpan);

    /// <summary>Makes a device deaf and dumb, or well again.</summary>
    /// <param name="device">Its name in the bench file.</param>
    /// <param name="silent">Whether it is silent.</param>
    public void Silence(string device, bool silent = true)
    {
        lock (_lock)
        {
            _ = silent ? _silenced.Add(device) : _silenced.Remove(device);
        }
    }

    /// <summary>Takes a board's power away: it is silent, its outputs are off, and its watchdog forgets its time.</summary>
    /// <param name="device">Its name in the bench file.</param>
    public void LosePower(string device)
    {
        lock (_lock)
        {
            AdvanceToPresent();
            BoardOf(device).LosePower();
        }
    }

    /// <summary>Gives a board its power back.</summary>
    /// <param name="device">Its name in the bench file.</param>
    /// <param name="outputsAsTheyWere">Whether it restores its outputs as they were before, as a badly chosen board does.</param>
    public void RestorePower(string device, bool outputsAsTheyWere = false)
    {
        lock (_lock)
        {
            AdvanceToPresent();
            BoardOf(device).RestorePower(outputsAsTheyWere);
        }
    }

    /// <summary>Opens the supply of every position, or closes it again, without the emergency stop: a fuse, a plug, a blackout.</summary>
    public void CutSupply(bool cut = true)
    {
        lock (_lock)
        {
            AdvanceToPresent();
            _supplyCut = cut;
            FeedPositions_NeedsLock();
        }
    }

    /// <summary>What watchdogs switched off up to now and nobody took yet, in order.</summary>
    public IReadOnlyList<WatchdogDrop> TakeWatchdogDrops()
    {
        lock (_lock)
        {
            AdvanceToPresent();
            WatchdogDrop[] taken = [.. _drops];
            _drops.Clear();
            return taken;
        }
    }

    /// <summary>Cuts an open link: bytes on their way are lost, and both ends find it gone. It can be opened again.</summary>
    public void Cut(string link)
    {
        lock (_lock)
        {
            if (_open.Remove(link, out SimulatedLink? open))
            {
                open.Cut();
            }
        }
    }

    /// <summary>Takes a link's port away, or puts it back: what is not there can't be opened. What is open stays so; <see cref="Cut"/> it.</summary>
    public void Hide(string link, bool hidden = true)
    {
        lock (_lock)
        {
            _ = hidden ? _hidden.Add(link) : _hidden.Remove(link);
        }
    }

    /// <summary>Whether a link's port is taken away.</summary>
    internal bool IsHidden(string link)
    {
        lock (_lock)
        {
            return _hidden.Contains(link);
        }
    }

    /// <summary>Restarts a board: every output on it goes off.</summary>
    /// <param name="device">Its name in the bench file.</param>
    public void Restart(string device)
    {
        lock (_lock)
        {
            AdvanceToPresent();
            BoardOf(device).LosePower();
            BoardOf(device).RestorePower(outputsAsTheyWere: false);
        }
    }

    /// <summary>Makes a position's current meter fail, or mends it.</summary>
    public void FailCurrentMeter(string position, MeterFailure failure)
    {
        lock (_lock)
        {
            _positions.First(p => p.Name == position).CurrentMeter = failure;
        }
    }

    /// <summary>Welds a position's relay contact towards rising counts, or frees it; its coil still reads as commanded.</summary>
    public void StickUp(string position, bool stuck = true)
    {
        lock (_lock)
        {
            AdvanceToPresent();
            PlantOf(position).StickUp(stuck);
        }
    }

    /// <summary>As <see cref="StickUp"/>, towards falling counts.</summary>
    public void StickDown(string position, bool stuck = true)
    {
        lock (_lock)
        {
            AdvanceToPresent();
            PlantOf(position).StickDown(stuck);
        }
    }

    /// <summary>The devices of one link, ready to answer.</summary>
    /// <param name="link">Name of the link.</param>
    public ModbusServer Server(string link)
    {
        DeviceDescription[] devices = [.. File.Devices.Where(d => d.Link == link)];
        Dictionary<int, string> names = devices.ToDictionary(d => d.Address, d => d.Name);
        return new ModbusServer(new PresentDevices(
            devices.ToDictionary(d => d.Address, d => _registers[d.Name]), address => CanBeHeard(names[address])));
    }

    /// <summary>Answers for every device of one link until it closes.</summary>
    /// <param name="link">Name of the link.</param>
    /// <param name="over">The devices' end of it.</param>
    /// <param name="cancel">Ends it.</param>
    /// <exception cref="IOException">The link is gone.</exception>
    /// <exception cref="OperationCanceledException">Cancelled.</exception>
    public Task ServeAsync(string link, ILink over, CancellationToken cancel)
    {
        LinkProtocol protocol = File.Links.First(l => l.Name == link).Protocol;
        return protocol is LinkProtocol.Scpi or LinkProtocol.Lines
            ? LineServer.RunAsync(over, message => AnswerText(link, message), File.Devices.First(d => d.Link == link).Lines?.End ?? ScpiDevice.Terminator, cancel)
            : new ModbusServerSession(Server(link)).RunAsync(over, protocol, cancel);
    }

    /// <summary>What a link's wires do to frames in one direction; null when nothing.</summary>
    /// <param name="link">Name of the link.</param>
    /// <param name="direction">A name for the direction; each has its own chance.</param>
    public LineNoise? Noise(string link, string direction)
    {
        HashSet<string> devices = [.. File.Devices.Where(d => d.Link == link).Select(d => d.Name)];
        double share = File.Positions.Zip(_positions)
            .Where(p => FeedbackDevices(p.First).Any(devices.Contains) || devices.Contains(p.First.Up.Device))
            .Select(p => p.Second.LineErrorShare)
            .DefaultIfEmpty(0.0)
            .Max();
        return share > 0.0 ? new LineNoise(share, _random.Fork($"noise {link} {direction}")) : null;
    }

    /// <summary>Takes a link as open; false when it is open already.</summary>
    internal bool TryTake(SimulatedLink link)
    {
        lock (_lock)
        {
            return _open.TryAdd(link.Name, link);
        }
    }

    internal void GiveBack(SimulatedLink link)
    {
        lock (_lock)
        {
            if (_open.GetValueOrDefault(link.Name) == link)
            {
                _open.Remove(link.Name);
            }
        }
    }

    private void Wire(UnitPositionDescription description, SimulatedPosition position)
    {
        Plant? plant = position.Plant;
        foreach (string device in FeedbackDevices(description).Where(d => d != description.Up.Device))
        {
            // A device of the unit's own goes silent with it; a count read by the board does not.
            _feedbacks[device] = position;
        }

        if (description.Count is { } count)
        {
            _devices.Reads(count, () => (int)position.RawCount(), () => position.RawCount());
        }

        foreach (PortSwitch port in description.Switches)
        {
            _devices.ReadsInput(port.Input, () => position.SwitchClosed(port.Port));
        }

        _devices.Reads(description.Current.Channel, position.RawCurrent, position.MeasuredCurrent);
        _devices.Reads(description.Voltage.Channel, position.RawVoltage, position.MeasuredVoltage);
        if (description.Target is { } target && position.Controller is { } controller)
        {
            _registers.Holds(target.Register, raw => controller.Target = target.Count(raw), () => target.Raw((int)controller.Target));
            WireOutput(description.Up, (on, commanded) => Power(controller, description.Name, on, commanded), () => controller.Powered);
        }
        else
        {
            WireOutput(description.Up, (on, commanded) => Switch(plant, description.Name, up: true, on, commanded), () => plant is { UpCoil: true });
            WireOutput(description.Down, (on, commanded) => Switch(plant, description.Name, up: false, on, commanded), () => plant is { DownCoil: true });
        }

        _devices.ReadsInput(description.Index, () => plant is { IndexClosed: true });
        _devices.ReadsInput(description.EmergencyStop, () => _emergencyStop);
    }

    private void WireOutput(Channel? channel, Action<bool, bool> switches, Func<bool> coil)
    {
        _devices.Switches(channel, on => switches(on, true), coil);
        if (channel is not null)
        {
            BoardOf(channel.Device).AddOutput(on => switches(on, false), coil);
        }
    }

    private static IEnumerable<string> FeedbackDevices(UnitPositionDescription position) =>
        position.Count is { } count ? [count.Device] : position.Switches.Select(s => s.Input.Device).Distinct();

    private LinkProtocol ProtocolOf(DeviceDescription device) => File.Links.First(l => l.Name == device.Link).Protocol;

    private SimulatedInstrument Instrument(DeviceDescription device) => new(
        device,
        () => File.Positions.Zip(_positions).Where(p => p.First.Current.Channel.Device == device.Name).Sum(p => p.Second.MeasuredCurrent()),
        () => File.Positions.Zip(_positions).FirstOrDefault(p => p.First.Voltage.Channel.Device == device.Name).Second?.MeasuredVoltage() ?? 0.0)
    {
        Changed = FeedPositions_NeedsLock,
    };

    private string? AnswerText(string link, string message)
    {
        foreach (DeviceDescription device in File.Devices.Where(d => d.Link == link && CanBeHeard(d.Name)))
        {
            lock (_lock)
            {
                AdvanceToPresent();
                if (Answer(device.Name, message) is string answer)
                {
                    return answer;
                }
            }
        }

        return null;
    }

    private string? Answer(string device, string message) =>
        _instruments.TryGetValue(device, out SimulatedInstrument? instrument) ? instrument.Answer(message) : _devices.Answer(device, message);

    private void Switch(Plant? plant, string position, bool up, bool on, bool commanded)
    {
        if (plant is null || (up ? plant.UpCoil : plant.DownCoil) == on)
        {
            return;
        }

        if (up)
        {
            plant.CommandUp(on);
        }
        else
        {
            plant.CommandDown(on);
        }

        OutputChanged?.Invoke(new OutputChange(position, up, on, commanded));
    }

    private void Power(UnitController controller, string position, bool on, bool commanded)
    {
        if (controller.Powered != on)
        {
            controller.Powered = on;
            OutputChanged?.Invoke(new OutputChange(position, Up: true, on, commanded));
        }
    }

    private bool CanBeHeard(string device)
    {
        lock (_lock)
        {
            if (_silenced.Contains(device) || !BoardOf(device).HasPower)
            {
                return false;
            }

            if (!_feedbacks.TryGetValue(device, out SimulatedPosition? position))
            {
                return true;
            }

            AdvanceToPresent();
            return position.FeedbackAnswers;
        }
    }

    private double NowS => (_time.GetTimestamp() - _start) / (double)_time.TimestampFrequency;

    private void SpeakTo(string device)
    {
        AdvanceToPresent();
        BoardOf(device).SpokenTo(NowS);
    }

    // Plants are advanced only when someone looks, so a watchdog that ran out meanwhile acts at its own instant first.
    private void AdvanceToPresent()
    {
        double now = NowS;
        while (NextToRunOut(now) is { } board)
        {
            double runsOut = board.RunsOutS;
            AdvancePlants(runsOut);
            if (board.RunOut() is var outputs and > 0)
            {
                _drops.Add(new WatchdogDrop(board.Name, _time.GetUtcNow() - TimeSpan.FromSeconds(now - runsOut), outputs));
            }
        }

        AdvancePlants(now);
    }

    private SimulatedBoard? NextToRunOut(double now)
    {
        SimulatedBoard? next = null;
        foreach (SimulatedBoard board in _boards.Values)
        {
            if (board.RunsOutS <= now && board.RunsOutS < (next?.RunsOutS ?? double.PositiveInfinity))
            {
                next = board;
            }
        }

        return next;
    }

    private void AdvancePlants(double toS)
    {
        foreach (SimulatedPosition position in _positions)
        {
            position.AdvanceTo(toS);
        }
    }

    private void SetEmergencyStop(bool pressed)
    {
        lock (_lock)
        {
            AdvanceToPresent();
            _emergencyStop = pressed;
            FeedPositions_NeedsLock();
        }
    }

    // A position is fed by the supply that measures it; one without is fed by a supply set by hand, always on.
    private void FeedPositions_NeedsLock()
    {
        foreach ((UnitPositionDescription description, SimulatedPosition position) in File.Positions.Zip(_positions))
        {
            if (position.Plant is { } plant)
            {
                SimulatedInstrument? supply = new[] { description.Voltage.Channel.Device, description.Current.Channel.Device }
                    .Select(name => _instruments.GetValueOrDefault(name))
                    .FirstOrDefault(i => i is { IsSupply: true });
                plant.SupplyConnected = !_emergencyStop && !_supplyCut && supply is not { On: false };
                plant.SupplyShare = supply?.SetShare ?? 1.0;
            }
        }
    }

    private SimulatedBoard BoardOf(string device) =>
        _boards.GetValueOrDefault(device) ?? throw new ArgumentException($"the bench file has no device '{device}'", nameof(device));

    private Plant PlantOf(string name) =>
        _positions.FirstOrDefault(p => p.Name == name)?.Plant
        ?? throw new ArgumentException($"there is no unit in a position '{name}'", nameof(name));
}

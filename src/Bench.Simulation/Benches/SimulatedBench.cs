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
    private readonly Lock _lock = new();
    private readonly SeededRandom _random;
    private readonly SimulatedPosition[] _positions;
    private readonly BenchPresent _present;
    private readonly SupplyBranches _supply;
    private readonly DeviceRegisters _registers;
    private readonly SimulatedDevices _devices;
    private readonly BenchWiring _wiring;
    private readonly HashSet<string> _silenced = [];

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
        _random = new SeededRandom(seed);
        _positions = [.. file.Positions.Select(p => new SimulatedPosition(p, units.GetValueOrDefault(p.Name), _random))];
        _present = new BenchPresent(time, file.Devices, _positions);
        _supply = new SupplyBranches(file, [.. file.Positions.Zip(_positions)]) { Set = setting => SupplySet?.Invoke(setting) };
        _registers = new DeviceRegisters(file, _lock, _present.SpeakTo);
        _devices = new SimulatedDevices(file, _registers);
        _wiring = new BenchWiring(_devices, _present, _supply, change => OutputChanged?.Invoke(change));
        foreach (DeviceDescription device in file.Devices)
        {
            SimulatedBoard board = _present.Board(device.Name);
            if (device.Lines is not null)
            {
                _devices.LineDevice(device.Name).Over(board, () => _present.SpeakTo(device.Name));
            }
            else if (device.Watchdog is { } watchdog)
            {
                Channel register = new(device.Name, RegisterTable.HoldingRegister, watchdog.HoldingRegister);
                _registers.Holds(register, value => board.WatchdogValue = value, () => board.WatchdogValue);
            }
        }

        foreach ((UnitPositionDescription description, SimulatedPosition position) in file.Positions.Zip(_positions))
        {
            _wiring.Wire(description, position);
        }
    }

    /// <summary>The bench file.</summary>
    public BenchFile File { get; }

    /// <summary>Its links, as far as they are open.</summary>
    internal OpenLinks Links { get; } = new();

    /// <summary>Called when a relay's coil changes, at that instant; for whoever watches the bench from outside.</summary>
    public Action<OutputChange>? OutputChanged { get; set; }

    /// <summary>Called when a programmable supply was set or switched, at that instant; for whoever watches the bench from outside.</summary>
    public Action<SupplySetting>? SupplySet { get; set; }

    /// <summary>The unit in a position as it truly is, brought to the present: for tests and demonstrations, never for a judge.</summary>
    /// <exception cref="ArgumentException">There is no such position, or it is empty.</exception>
    public Plant Unit(string position)
    {
        lock (_lock)
        {
            _present.Reach();
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
            _present.Reach();
            _present.Board(device).LosePower();
        }
    }

    /// <summary>Gives a board its power back.</summary>
    /// <param name="device">Its name in the bench file.</param>
    /// <param name="outputsAsTheyWere">Whether it restores its outputs as they were before, as a badly chosen board does.</param>
    public void RestorePower(string device, bool outputsAsTheyWere = false)
    {
        lock (_lock)
        {
            _present.Reach();
            _present.Board(device).RestorePower(outputsAsTheyWere);
        }
    }

    /// <summary>Opens the supply of every position, or closes it again, without the emergency stop: a fuse, a plug, a blackout.</summary>
    public void CutSupply(bool cut = true)
    {
        lock (_lock)
        {
            _present.Reach();
            _supply.Cut = cut;
        }
    }

    /// <summary>What watchdogs switched off up to now and nobody took yet, in order.</summary>
    public IReadOnlyList<WatchdogDrop> TakeWatchdogDrops()
    {
        lock (_lock)
        {
            _present.Reach();
            return _present.TakeDrops();
        }
    }

    /// <summary>Cuts an open link: bytes on their way are lost, and both ends find it gone. It can be opened again.</summary>
    public void Cut(string link) => Links.Cut(link);

    /// <summary>Takes a link's port away, or puts it back: what is not there can't be opened. What is open stays so; <see cref="Cut"/> it.</summary>
    public void Hide(string link, bool hidden = true) => Links.Hide(link, hidden);

    /// <summary>Restarts a board: every output on it goes off.</summary>
    /// <param name="device">Its name in the bench file.</param>
    public void Restart(string device)
    {
        lock (_lock)
        {
            _present.Reach();
            _present.Board(device).LosePower();
            _present.Board(device).RestorePower(outputsAsTheyWere: false);
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

    /// <summary>Makes a programmable supply fail, or mends it.</summary>
    /// <param name="device">Its name in the bench file.</param>
    /// <param name="failure">How.</param>
    /// <exception cref="ArgumentException">The device is no programmable supply.</exception>
    public void FailSupply(string device, SupplyFailure failure) => AtPresent(() => (_supply.InstrumentOf(device) is { IsSupply: true } supply
        ? supply
        : throw new ArgumentException($"'{device}' is no programmable supply", nameof(device))).Failure = failure);

    /// <summary>Welds a position's relay contact towards rising counts, or frees it; its coil still reads as commanded.</summary>
    public void StickUp(string position, bool stuck = true) => AtPresent(() => PlantOf(position).StickUp(stuck));

    /// <summary>As <see cref="StickUp"/>, towards falling counts.</summary>
    public void StickDown(string position, bool stuck = true) => AtPresent(() => PlantOf(position).StickDown(stuck));

    /// <summary>Burns a position's relay contact towards rising counts, so that it does not make; its coil still reads as commanded.</summary>
    public void BurnUp(string position, bool burnt = true) => AtPresent(() => PlantOf(position).BurnUp(burnt));

    /// <summary>As <see cref="BurnUp"/>, towards falling counts.</summary>
    public void BurnDown(string position, bool burnt = true) => AtPresent(() => PlantOf(position).BurnDown(burnt));

    /// <summary>Takes the valve off the unit in a position, as a person would; the supply is not touched.</summary>
    public void Uncouple(string position)
    {
        lock (_lock)
        {
            _present.Reach();
            PlantOf(position).Uncouple();
        }
    }

    /// <summary>Moves connector and cable of the unit in a position as a person would, or lets go of them.</summary>
    public void MoveConnector(string position, bool moved = true) => AtPresent(() => PlantOf(position).ConnectorMoved = moved);

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
        DeviceDescription first = File.Devices.First(d => d.Link == link);
        return protocol switch
        {
            LinkProtocol.Scpi or LinkProtocol.Lines =>
                LineServer.RunAsync(over, message => AnswerText(link, message), first.Lines?.End ?? ScpiDevice.Terminator, cancel),
            LinkProtocol.Stream => _devices.Stream(first.Name).RunAsync(over, _time, AtPresent, () => CanBeHeard(first.Name), cancel),
            _ => new ModbusServerSession(Server(link)).RunAsync(over, protocol, cancel),
        };
    }

    /// <summary>What a link's wires do to frames in one direction; null when nothing.</summary>
    /// <param name="link">Name of the link.</param>
    /// <param name="direction">A name for the direction; each has its own chance.</param>
    public LineNoise? Noise(string link, string direction)
    {
        HashSet<string> devices = [.. File.Devices.Where(d => d.Link == link).Select(d => d.Name)];
        double share = File.Positions.Zip(_positions)
            .Where(p => BenchWiring.FeedbackDevices(p.First).Any(devices.Contains) || devices.Contains(p.First.Up.Device))
            .Select(p => p.Second.LineErrorShare)
            .DefaultIfEmpty(0.0)
            .Max();
        return share > 0.0 ? new LineNoise(share, _random.Fork($"noise {link} {direction}")) : null;
    }

    private void AtPresent(Action work)
    {
        lock (_lock)
        {
            _present.Reach();
            work();
        }
    }

    private string? AnswerText(string link, string message)
    {
        foreach (DeviceDescription device in File.Devices.Where(d => d.Link == link && CanBeHeard(d.Name)))
        {
            lock (_lock)
            {
                _present.Reach();
                if (Answer(device.Name, message) is string answer)
                {
                    return answer;
                }
            }
        }

        return null;
    }

    private string? Answer(string device, string message) =>
        _supply.InstrumentOf(device) is { } instrument ? instrument.Answer(message) : _devices.Answer(device, message);

    private bool CanBeHeard(string device)
    {
        lock (_lock)
        {
            if (_silenced.Contains(device) || !_present.Board(device).HasPower)
            {
                return false;
            }

            if (_wiring.FeedbackOf(device) is not { } position)
            {
                return true;
            }

            _present.Reach();
            return position.FeedbackAnswers;
        }
    }

    private void SetEmergencyStop(bool pressed)
    {
        lock (_lock)
        {
            _present.Reach();
            _supply.EmergencyStop = pressed;
        }
    }

    private Plant PlantOf(string name) =>
        _positions.FirstOrDefault(p => p.Name == name)?.Plant
        ?? throw new ArgumentException($"there is no unit in a position '{name}'", nameof(name));
}

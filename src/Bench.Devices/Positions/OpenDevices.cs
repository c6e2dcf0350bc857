using Bench.Devices.Boards;
using Bench.Devices.Buses;
using Bench.Devices.Feedbacks;
using Bench.Devices.Lines;
using Bench.Devices.Meters;
using Bench.Devices.Modbus.Client;
using Bench.Devices.Scpi;
using Bench.Devices.Streams;
using Bench.Model.BenchFiles;
using Bench.Model.Instruments;
using Bench.Model.Profiles;
using Bench.Model.Rings;

namespace Bench.Devices.Positions;

/// <summary>The devices of an open bench, each as what it speaks.</summary>
internal sealed class OpenDevices
{
    private readonly Dictionary<string, BusDevice> _registers = [];
    private readonly Dictionary<string, ScpiDevice> _instruments = [];
    private readonly Dictionary<string, TemplatedDevice> _templated = [];
    private readonly IReadOnlyDictionary<string, StreamDevice> _streams;

    /// <summary>Makes the devices.</summary>
    /// <param name="file">The bench file.</param>
    /// <param name="buses">Owners of links that carry Modbus, by link.</param>
    /// <param name="lines">Owners of links that carry lines, by link.</param>
    /// <param name="streams">Devices that push frames, by name.</param>
    public OpenDevices(
        BenchFile file,
        IReadOnlyDictionary<string, LinkOwner<IModbusClient>> buses,
        IReadOnlyDictionary<string, LinkOwner<LineClient>> lines,
        IReadOnlyDictionary<string, StreamDevice> streams)
    {
        _streams = streams;
        bool isFeedback(string device) => PositionChannels.IsFeedback(file, device);
        foreach (DeviceDescription device in file.Devices.Where(d => d.Stream is null))
        {
            if (buses.TryGetValue(device.Link, out LinkOwner<IModbusClient>? bus))
            {
                _registers[device.Name] = new BusDevice(bus, device, isFeedback(device.Name));
            }
            else if (device.Lines is LineSyntax syntax)
            {
                _templated[device.Name] = new TemplatedDevice(new LineDevice(lines[device.Link], device, syntax.End, isFeedback(device.Name)), syntax);
            }
            else
            {
                _instruments[device.Name] = new ScpiDevice(new LineDevice(lines[device.Link], device, ScpiDevice.Terminator, isFeedback: false));
            }
        }

        Supplies =
        [
            .. from device in file.Devices
               where device.SupplyVoltageV is not null
               select new ScpiSupply(_instruments[device.Name], device.SupplyVoltageV!.Value, file.SupplyCurrentLimitA, device.SupplyRange, device.SupplyChannel),
        ];
    }

    /// <summary>The programmable supplies.</summary>
    public IReadOnlyList<ScpiSupply> Supplies { get; }

    /// <summary>A device of registers and coils.</summary>
    public BusDevice Registers(string name) => _registers[name];

    /// <summary>As <see cref="Registers"/>; null when the device has none.</summary>
    public BusDevice? RegistersOrNull(string name) => _registers.GetValueOrDefault(name);

    /// <summary>An instrument; null when the device is none.</summary>
    public ScpiDevice? Instrument(string name) => _instruments.GetValueOrDefault(name);

    /// <summary>A device that speaks lines; null when it does not.</summary>
    public TemplatedDevice? Templated(string name) => _templated.GetValueOrDefault(name);

    /// <summary>A device that pushes frames; null when it does not.</summary>
    public StreamDevice? Stream(string name) => _streams.GetValueOrDefault(name);

    /// <summary>Exchanges so far with a device.</summary>
    public LinkCounts Counts(string name) =>
        _streams.GetValueOrDefault(name)?.Counts ??
        _instruments.GetValueOrDefault(name)?.Line.Counts ?? _templated.GetValueOrDefault(name)?.Line.Counts ?? _registers[name].Counts;

    /// <summary>A position's drive.</summary>
    public IBenchDrive Drive(UnitPositionDescription position) => position.Target is { } target
        ? new CommandedDrive(Outputs(position), _registers[target.Register.Device], target)
        : Outputs(position);

    private IBenchDrive Outputs(UnitPositionDescription position)
    {
        if (position.Up.Text is string up)
        {
            return new LineDrive(
                new LineRelay(_templated[position.Up.Device], up),
                position.Down is { Text: string down } ? new LineRelay(_templated[position.Down.Device], down) : null);
        }

        return new RelayDrive(Coil(position.Up), position.Down is null ? null : Coil(position.Down));
    }

    /// <summary>A board's watchdog.</summary>
    public IWatchdog Watchdog(string board, WatchdogDescription watchdog) => watchdog.Lines is WatchdogLines lines
        ? new LineWatchdog(_templated[board].Line, watchdog, lines)
        : new BoardWatchdog(_registers[board], watchdog);

    private ICountSource Count(Channel channel) => _streams.TryGetValue(channel.Device, out StreamDevice? stream) ? new StreamCount(stream, channel.Text!)
        : channel.Text is string line
        ? new LineCount(_templated[channel.Device], line)
        : new RegisterCount(_registers[channel.Device], channel);

    /// <summary>A position's meters and inputs, read in as few exchanges as their places allow.</summary>
    public IMeters Meters(UnitPositionDescription position)
    {
        IReadOnlyList<IChannelSource> sources = Sources(
            [position.Current.Channel, position.Voltage.Channel],
            [.. new[] { position.Index, position.EmergencyStop }.OfType<Channel>()]);
        ChannelMeters polled = new(position, sources);
        return sources.OfType<StreamSource>().FirstOrDefault(s => s.Holds(position.Current.Channel, isInput: false)) is StreamSource pushed
            ? new PushedMeters(polled, pushed, position)
            : polled;
    }

    /// <summary>A unit's feedback.</summary>
    /// <param name="position">Where it is wired.</param>
    /// <param name="ring">The unit's ring.</param>
    /// <param name="ports">Its ports.</param>
    /// <param name="moving">Whether it may be turning.</param>
    /// <exception cref="ArgumentException">Its port switches are not for the unit's ports, its home count is not on the ring, or its target's register can't hold the ring.</exception>
    public IFeedback Feedback(UnitPositionDescription position, Ring ring, IReadOnlyList<Port> ports, Func<bool> moving)
    {
        if (position.Target?.Raw(ring.Counts - 1) > ushort.MaxValue)
        {
            throw new ArgumentException(
                $"position '{position.Name}' has a target of scale_counts {position.Target.ScaleCounts}, and a register can't hold count {ring.Counts - 1} so; a greater scale is allowed", nameof(ring));
        }

        if (position.Count is Channel count)
        {
            if (position.Counter?.HomeCount >= ring.Counts)
            {
                throw new ArgumentException($"position '{position.Name}' has home_count {position.Counter.HomeCount}, which is not on a ring of {ring.Counts}; 0 to {ring.Counts - 1} is allowed", nameof(ring));
            }

            ICountSource source = Count(count);
            if (position.Counter is CounterDescription counter)
            {
                IncrementalFeedback incremental = new(source, counter, ring, moving);
                return source is StreamCount counts ? new PushedFeedback(incremental, counts, incremental.Place) : incremental;
            }

            RingFeedback absolute = new(source, ring, moving);
            return source is StreamCount stream ? new PushedFeedback(absolute, stream, absolute.Place) : absolute;
        }

        string[] wired = [.. position.Switches.Select(s => s.Port).Order(StringComparer.Ordinal)];
        if (!wired.SequenceEqual(ports.Select(p => p.Name).Order(StringComparer.Ordinal)))
        {
            throw new ArgumentException(
                $"position '{position.Name}' has switches for the ports {string.Join(", ", wired)}, the unit has {(ports.Count == 0 ? "none that are known" : string.Join(", ", ports.Select(p => p.Name)))}; each port needs one",
                nameof(ports));
        }

        return new SwitchFeedback(position.Switches, ports, Sources([], [.. position.Switches.Select(s => s.Input)]), moving);
    }

    private IReadOnlyList<IChannelSource> Sources(Channel[] numbers, Channel[] inputs)
    {
        return
        [
            .. ChannelBlock.Of(numbers.Concat(inputs).Where(c => c.Text is null), Registers),
            .. numbers.Select(c => c.Device).Distinct().Select(Stream).OfType<StreamDevice>().Select(s => new StreamSource(s)),
            .. Texts(numbers.Where(c => !_streams.ContainsKey(c.Device))).Select(c => Source(c, isInput: false)),
            .. Texts(inputs).Select(c => Source(c, isInput: true)),
        ];
    }

    private static IEnumerable<Channel> Texts(IEnumerable<Channel> channels) =>
        channels.Where(c => c.Text is not null).DistinctBy(c => (c.Device, c.Text));

    private IChannelSource Source(Channel channel, bool isInput) => _templated.TryGetValue(channel.Device, out TemplatedDevice? device)
        ? new LineSource(device, channel.Text!, isInput)
        : new ScpiSource(_instruments[channel.Device], channel.Text!);

    private RelayCoil Coil(Channel channel) => new(_registers[channel.Device], channel.Address);
}

using Bench.Devices.Boards;
using Bench.Devices.Buses;
using Bench.Devices.Lines;
using Bench.Devices.Links;
using Bench.Devices.Meters;
using Bench.Devices.Modbus.Client;
using Bench.Devices.Scpi;
using Bench.Model.BenchFiles;
using Bench.Model.Instruments;
using Bench.Model.Profiles;
using Bench.Model.Rings;

namespace Bench.Devices.Positions;

/// <summary>A bench whose links are open. Closing it closes the links; it switches nothing by itself.</summary>
public sealed class OpenBench : IAsyncDisposable
{
    /// <summary>Reads after which a device that never answered is given up: each costs a whole time-out.</summary>
    private const int MostUnanswered = 10;

    private readonly BenchFile _file;
    private readonly IReadOnlyList<ReopeningLink> _links;
    private readonly IReadOnlyList<IAsyncDisposable> _owned;
    private readonly OpenDevices _devices;
    private readonly Dictionary<string, IBenchDrive> _drives;
    private readonly SharedSupplies _supplies;

    internal OpenBench(
        BenchFile file,
        IReadOnlyDictionary<string, BusOwner> buses,
        IReadOnlyDictionary<string, LineOwner> lines,
        IReadOnlyList<ReopeningLink> links,
        IReadOnlyList<IAsyncDisposable> owned,
        TimeProvider time)
    {
        _file = file;
        _links = links;
        _owned = owned;
        _devices = new OpenDevices(file, buses, lines, IsFeedback);
        _drives = file.Positions.ToDictionary(p => p.Name, _devices.Drive);
        _supplies = new SharedSupplies(this, _devices.Supplies.Count > 0, time);
    }

    /// <summary>The programmable supplies as the run at one position switches them; runs at others share them.</summary>
    public IBenchPower PowerAt(string position) => _supplies.For(position);

    /// <summary>The instruments of one position, for a unit whose feedback counts. A link that is lost from here on ends their use but for switching off.</summary>
    /// <exception cref="ArgumentException">The bench has no such position, or it has port switches.</exception>
    public IUnitPosition Position(string name, Ring ring) => Position(name, ring, []);

    /// <summary>The instruments of one position, for a unit of a family. A link that is lost from here on ends their use but for switching off.</summary>
    /// <exception cref="ArgumentException">The bench has no such position, or its port switches are not for the family's ports.</exception>
    public IUnitPosition Position(string name, Profile profile)
    {
        ArgumentNullException.ThrowIfNull(profile);
        return Position(name, profile.Ring, profile.Ports);
    }

    private UnitPosition Position(string name, Ring ring, IReadOnlyList<Port> ports)
    {
        UnitPositionDescription position = _file.Positions.FirstOrDefault(p => p.Name == name)
            ?? throw new ArgumentException(
                $"bench {_file.Name} has no position '{name}'; it has {string.Join(", ", _file.Positions.Select(p => p.Name))}", nameof(name));
        IBenchDrive drive = _drives[name];
        IFeedback feedback = _devices.Feedback(position, ring, ports, () => drive.CommandedOn);
        ChannelMeters meters = new(position, _devices.Sources(position));
        string[] devices = [.. Channels(position).Select(c => c.Device).Distinct()];
        Func<LinkCounts>[] used = [.. devices.Select(d => (Func<LinkCounts>)(() => _devices.Counts(d)))];
        LinkWatch watch = new(_links.Where(l => _file.Devices.Any(d => d.Link == l.Name && devices.Contains(d.Name))));
        return new UnitPosition(
            name, new WatchedDrive(drive, watch), Watchdogs(position), new WatchedFeedback(feedback, watch), new WatchedMeters(meters, watch), used);
    }

    /// <summary>
    /// Sets the programmable supplies, checks them by reading back, and switches their outputs on. Call before a run, with
    /// every position's outputs off. A bench without such a supply has nothing to do here.
    /// </summary>
    public async Task<IReadOnlyList<SupplyState>> StartSuppliesAsync(CancellationToken cancel)
    {
        List<SupplyState> states = [];
        foreach (ScpiSupply supply in _devices.Supplies)
        {
            try
            {
                await supply.StartAsync(cancel);
                states.Add(new SupplyState(supply.Name, true, null));
            }
            catch (DeviceFaultException e)
            {
                states.Add(new SupplyState(supply.Name, null, e.Fault));
            }
        }

        return states;
    }

    /// <summary>Switches the outputs of the programmable supplies off and reads them back.</summary>
    public async Task<IReadOnlyList<SupplyState>> SwitchSuppliesOffAsync(CancellationToken cancel)
    {
        List<SupplyState> states = [];
        foreach (ScpiSupply supply in _devices.Supplies)
        {
            try
            {
                await supply.SwitchOffAsync(cancel);
                states.Add(new SupplyState(supply.Name, false, null));
            }
            catch (DeviceFaultException e)
            {
                states.Add(new SupplyState(supply.Name, null, e.Fault));
            }
        }

        return states;
    }

    /// <summary>
    /// Switches every output of every position off and reads it back, then the programmable supplies off as far as they
    /// answer. A position that fails does not keep the others from being switched off; the results say which are confirmed.
    /// </summary>
    public async Task<IReadOnlyList<SafeStateResult>> SwitchEverythingOffAsync(CancellationToken cancel)
    {
        Dictionary<string, DeviceFault> faults = [];
        foreach (UnitPositionDescription position in _file.Positions)
        {
            try
            {
                await _drives[position.Name].SwitchOffAsync(cancel);
            }
            catch (DeviceFaultException e)
            {
                faults[position.Name] = e.Fault;
            }
        }

        IReadOnlyList<SafeStateResult> states = await ReadEverythingBackAsync(cancel);
        _ = await SwitchSuppliesOffAsync(cancel);
        return [.. states.Select(s => s with { Fault = faults.GetValueOrDefault(s.Position) ?? s.Fault })];
    }

    /// <summary>Asks what every output of every position is. Only reads.</summary>
    public async Task<IReadOnlyList<SafeStateResult>> ReadEverythingBackAsync(CancellationToken cancel)
    {
        List<SafeStateResult> results = [];
        foreach (UnitPositionDescription position in _file.Positions)
        {
            try
            {
                results.Add(new SafeStateResult(position.Name, await _drives[position.Name].ReadBackAsync(cancel), null));
            }
            catch (DeviceFaultException e)
            {
                results.Add(new SafeStateResult(position.Name, null, e.Fault));
            }
        }

        return results;
    }

    /// <summary>Asks every device a number of times for something the bench file says it has. Only reads.</summary>
    /// <param name="reads">Reads per device, at least 1; a device that never answers is asked fewer times.</param>
    /// <param name="cancel">Stops between reads.</param>
    public async Task<IReadOnlyList<DeviceCheck>> CheckAsync(int reads, CancellationToken cancel)
    {
        ArgumentOutOfRangeException.ThrowIfLessThan(reads, 1);
        List<DeviceCheck> checks = [];
        foreach (DeviceDescription device in _file.Devices)
        {
            checks.Add(await CheckAsync(device, reads, cancel));
        }

        return checks;
    }

    /// <inheritdoc/>
    public async ValueTask DisposeAsync()
    {
        _supplies.Dispose();
        foreach (IAsyncDisposable owned in _owned)
        {
            await owned.DisposeAsync();
        }
    }

    private static IEnumerable<Channel> Channels(UnitPositionDescription p) =>
        new[] { p.Up, p.Down, p.Count, p.Current.Channel, p.Voltage.Channel, p.Index, p.EmergencyStop }.OfType<Channel>()
            .Concat(p.Switches.Select(s => s.Input));

    private async Task<DeviceCheck> CheckAsync(DeviceDescription device, int reads, CancellationToken cancel)
    {
        Func<ValueTask<(DeviceFault? Fault, TimeSpan RoundTrip)>> ask = Question(device, cancel);
        List<TimeSpan> times = [];
        DeviceFault? last = null;
        bool answered = false;
        int made = 0;
        for (; made < reads && (answered || made < MostUnanswered); made++)
        {
            (DeviceFault? fault, TimeSpan roundTrip) = await ask();
            answered |= fault is null or { Kind: DeviceFaultKind.Refused };
            if (fault is null)
            {
                times.Add(roundTrip);
            }
            else
            {
                last = fault;
            }
        }

        times.Sort();
        return new DeviceCheck(
            device.Name, device.Link, device.Address, answered, last, made, made - times.Count, Percentile(times, 50), Percentile(times, 99));
    }

    // Something the device must be able to answer, and that changes nothing.
    private Func<ValueTask<(DeviceFault? Fault, TimeSpan RoundTrip)>> Question(DeviceDescription device, CancellationToken cancel)
    {
        if (_devices.Instrument(device.Name) is ScpiDevice instrument)
        {
            return async () =>
            {
                LineResult result = await instrument.IdentifyAsync(cancel);
                return (result.Ok ? null : instrument.Line.Fault(result, "*IDN?"), result.RoundTrip);
            };
        }

        if (_devices.Templated(device.Name) is TemplatedDevice templated)
        {
            Channel? used = _file.Positions.SelectMany(Channels).FirstOrDefault(c => c.Device == device.Name);
            bool asksValue = _file.Positions.Any(p => used == p.Count || used == p.Current.Channel || used == p.Voltage.Channel);
            string channel = used?.Text ?? "1";
            return async () =>
            {
                LineResult result = asksValue || device.Lines!.AskState is null
                    ? (await templated.AskValueAsync(BusClass.Rest, channel, cancel)).Result
                    : (await templated.AskStateAsync(BusClass.Rest, channel, retry: false, cancel)).Result;
                return (result.Ok ? null : templated.Line.Fault(result, $"for {channel}"), result.RoundTrip);
            };
        }

        // A device no position uses is asked for its first holding register; a refusal is an answer, too.
        Channel asked = _file.Positions.SelectMany(Channels).FirstOrDefault(c => c.Device == device.Name)
            ?? new Channel(device.Name, RegisterTable.HoldingRegister, 0);
        ChannelBlock block = ChannelBlock.Of([asked], _devices.Registers)[0];
        return async () =>
        {
            ModbusResult result = await block.ReadAsync(BusClass.Rest, cancel);
            return (result.Ok ? null : block.Device.Fault(result, block.Asked), result.RoundTrip);
        };
    }

    private static TimeSpan? Percentile(List<TimeSpan> sorted, int percent) =>
        sorted.Count == 0 ? null : sorted[(((percent * sorted.Count) + 99) / 100) - 1];

    private IReadOnlyList<IWatchdog> Watchdogs(UnitPositionDescription position) =>
    [
        .. from name in new[] { position.Up.Device, position.Down?.Device }.OfType<string>().Distinct()
           let watchdog = _file.Devices.First(d => d.Name == name).Watchdog
           where watchdog is not null
           select new BoardWatchdog(_devices.Registers(name), watchdog),
    ];

    private bool IsFeedback(string device) =>
        _file.Positions.Any(p => Feedback(p).Any(c => c.Device == device))
        && _file.Positions.All(p => Channels(p).All(c => c.Device != device || Feedback(p).Any(f => ReferenceEquals(c, f))));

    private static IEnumerable<Channel> Feedback(UnitPositionDescription p) =>
        p.Count is Channel count ? [count] : p.Switches.Select(s => s.Input);
}

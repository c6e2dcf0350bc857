using Bench.Devices.Boards;
using Bench.Devices.Buses;
using Bench.Devices.Feedbacks;
using Bench.Devices.Meters;
using Bench.Devices.Modbus.Client;
using Bench.Model.BenchFiles;
using Bench.Model.Instruments;
using Bench.Model.Rings;

namespace Bench.Devices.Positions;

/// <summary>A bench whose links are open. Closing it closes the links; it switches nothing by itself.</summary>
public sealed class OpenBench : IAsyncDisposable
{
    private readonly BenchFile _file;
    private readonly IReadOnlyList<IAsyncDisposable> _owned;
    private readonly Dictionary<string, BusDevice> _devices;
    private readonly Dictionary<string, RelayDrive> _drives;

    internal OpenBench(BenchFile file, IReadOnlyDictionary<string, BusOwner> buses, IReadOnlyList<IAsyncDisposable> owned)
    {
        _file = file;
        _owned = owned;
        _devices = file.Devices.ToDictionary(d => d.Name, d => new BusDevice(buses[d.Link], d, IsFeedback(d.Name)));
        _drives = file.Positions.ToDictionary(p => p.Name, p => new RelayDrive(Coil(p.Up), p.Down is null ? null : Coil(p.Down)));
    }

    /// <summary>The instruments of one position, for a unit with a ring.</summary>
    /// <exception cref="ArgumentException">The bench has no such position.</exception>
    public IUnitPosition Position(string name, Ring ring)
    {
        UnitPositionDescription position = _file.Positions.FirstOrDefault(p => p.Name == name)
            ?? throw new ArgumentException(
                $"bench {_file.Name} has no position '{name}'; it has {string.Join(", ", _file.Positions.Select(p => p.Name))}", nameof(name));
        RelayDrive drive = _drives[name];
        RingFeedback feedback = new(_devices[position.Count.Device], position.Count, ring, () => drive.CommandedOn);
        RegisterMeters meters = new(position, d => _devices[d]);
        BusDevice[] used = [.. Channels(position).Select(c => c.Device).Distinct().Select(d => _devices[d])];
        return new UnitPosition(name, drive, Watchdogs(position), feedback, meters, used);
    }

    /// <summary>
    /// Switches every output of every position off and reads it back. A position that fails does not keep the others
    /// from being switched off; the results say which are confirmed.
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
    /// <param name="reads">Reads per device, at least 1.</param>
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
        foreach (IAsyncDisposable owned in _owned)
        {
            await owned.DisposeAsync();
        }
    }

    private static IEnumerable<Channel> Channels(UnitPositionDescription p) =>
        new[] { p.Up, p.Down, p.Count, p.Current.Channel, p.Voltage.Channel, p.Index, p.EmergencyStop }.OfType<Channel>();

    private async Task<DeviceCheck> CheckAsync(DeviceDescription device, int reads, CancellationToken cancel)
    {
        // A device no position uses is asked for its first holding register; a refusal is an answer, too.
        Channel asked = _file.Positions.SelectMany(Channels).FirstOrDefault(c => c.Device == device.Name)
            ?? new Channel(device.Name, RegisterTable.HoldingRegister, 0);
        ChannelBlock block = ChannelBlock.Of([asked], d => _devices[d])[0];
        List<TimeSpan> times = [];
        DeviceFault? fault = null;
        bool answered = false;
        for (int i = 0; i < reads; i++)
        {
            ModbusResult result = await block.ReadAsync(BusClass.Rest, cancel);
            answered |= result.Fault is null or DeviceFaultKind.Refused;
            if (result.Ok)
            {
                times.Add(result.RoundTrip);
            }
            else
            {
                fault = block.Device.Fault(result, block.Asked);
            }
        }

        times.Sort();
        return new DeviceCheck(
            device.Name, device.Link, device.Address, answered, fault, reads, reads - times.Count, Percentile(times, 50), Percentile(times, 99));
    }

    private static TimeSpan? Percentile(List<TimeSpan> sorted, int percent) =>
        sorted.Count == 0 ? null : sorted[(((percent * sorted.Count) + 99) / 100) - 1];

    private IReadOnlyList<IWatchdog> Watchdogs(UnitPositionDescription position) =>
    [
        .. from name in new[] { position.Up.Device, position.Down?.Device }.OfType<string>().Distinct()
           let watchdog = _file.Devices.First(d => d.Name == name).Watchdog
           where watchdog is not null
           select new BoardWatchdog(_devices[name], watchdog),
    ];

    private bool IsFeedback(string device) =>
        _file.Positions.Any(p => p.Count.Device == device)
        && _file.Positions.All(p => Channels(p).All(c => c.Device != device || ReferenceEquals(c, p.Count)));

    private RelayCoil Coil(Channel channel) => new(_devices[channel.Device], channel.Address);
}

using Bench.Devices.Boards;
using Bench.Devices.Links;
using Bench.Devices.Modbus.Client;
using Bench.Model.BenchFiles;
using Bench.Model.Instruments;
using Bench.Model.Profiles;
using Bench.Model.Rings;

namespace Bench.Devices.Positions;

/// <summary>A bench whose links are open. Closing it closes the links; it switches nothing by itself.</summary>
public sealed class OpenBench : IAsyncDisposable
{
    private readonly BenchFile _file;
    private readonly IReadOnlyList<ReopeningLink> _links;
    private readonly IReadOnlyList<IAsyncDisposable> _owned;
    private readonly OpenDevices _devices;
    private readonly TimeProvider _time;
    private readonly Dictionary<string, IBenchDrive> _drives;
    private readonly AllSupplies _supplies;
    private readonly SharedSupplies _shared;
    private readonly DeviceIdentities _identities;

    internal OpenBench(
        BenchFile file, OpenDevices devices, IReadOnlyList<ReopeningLink> links, TimeProvider time, IReadOnlyList<IAsyncDisposable> owned)
    {
        _time = time;
        _file = file;
        _links = links;
        _owned = owned;
        _devices = devices;
        _drives = file.Positions.ToDictionary(p => p.Name, _devices.Drive);
        _supplies = new AllSupplies(_devices.Supplies);
        _shared = new SharedSupplies(_supplies, time);
        _identities = new DeviceIdentities(_devices);
    }

    /// <summary>The programmable supplies as the run at one position switches them; runs at others share them.</summary>
    public IBenchPower PowerAt(string position) => _shared.For(position, SupplyOf(position));

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

    /// <summary>
    /// Sets the programmable supplies, checks them by reading back, and switches their outputs on. Call before a run, with
    /// every position's outputs off. A bench without such a supply has nothing to do here.
    /// </summary>
    public Task<IReadOnlyList<SupplyState>> StartSuppliesAsync(CancellationToken cancel) => _supplies.StartAsync(cancel);

    /// <summary>Switches the outputs of the programmable supplies off and reads them back.</summary>
    public Task<IReadOnlyList<SupplyState>> SwitchSuppliesOffAsync(CancellationToken cancel) => _supplies.TurnOffAsync(cancel);

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

    /// <summary>Asks every device what it is, for the records of the runs that follow. Only reads; one that does not say costs its time-out.</summary>
    public async Task IdentifyAsync(CancellationToken cancel)
    {
        foreach (DeviceDescription device in _file.Devices)
        {
            await _identities.AskAsync(device, cancel);
        }
    }

    /// <summary>Asks every device a number of times for something the bench file says it has. Only reads.</summary>
    /// <param name="reads">Reads per device, at least 1; a device that never answers is asked fewer times.</param>
    /// <param name="cancel">Stops between reads.</param>
    public async Task<IReadOnlyList<DeviceCheck>> CheckAsync(int reads, CancellationToken cancel)
    {
        ArgumentOutOfRangeException.ThrowIfLessThan(reads, 1);
        DeviceReads asking = new(_file, _devices, _time);
        List<DeviceCheck> checks = [];
        foreach (DeviceDescription device in _file.Devices)
        {
            DeviceCheck check = await asking.CheckAsync(device, reads, cancel);
            if (check.Answered)
            {
                await _identities.AskAsync(device, cancel);
            }

            LinkCounts counts = Counts(device.Name);
            checks.Add(check with { Identity = counts.Identity, TurnaroundMs = counts.TurnaroundMs });
        }

        return checks;
    }

    /// <inheritdoc/>
    public async ValueTask DisposeAsync()
    {
        _shared.Dispose();
        foreach (IAsyncDisposable owned in _owned)
        {
            await owned.DisposeAsync();
        }
    }

    // A supply feeds the positions whose voltage or current it measures (docs/bench-file.md).
    private string? SupplyOf(string position) => _file.Positions.FirstOrDefault(p => p.Name == position) is { } fed
        ? _file.Devices.FirstOrDefault(d => d.SupplyVoltageV is not null && (d.Name == fed.Voltage.Channel.Device || d.Name == fed.Current.Channel.Device))?.Name
        : null;

    private UnitPosition Position(string name, Ring ring, IReadOnlyList<Port> ports)
    {
        UnitPositionDescription position = _file.Positions.FirstOrDefault(p => p.Name == name)
            ?? throw new ArgumentException(
                $"bench {_file.Name} has no position '{name}'; it has {string.Join(", ", _file.Positions.Select(p => p.Name))}", nameof(name));
        IBenchDrive drive = _drives[name];
        IFeedback feedback = _devices.Feedback(position, ring, ports, () => drive.CommandedOn);
        IMeters meters = _devices.Meters(position);
        string[] devices = [.. PositionChannels.Of(position).Select(c => c.Device).Distinct()];
        Func<LinkCounts>[] used = [.. devices.Select(d => (Func<LinkCounts>)(() => Counts(d)))];
        LinkWatch watch = new(_links.Where(l => _file.Devices.Any(d => d.Link == l.Name && devices.Contains(d.Name))));
        return new UnitPosition(
            name, new WatchedDrive(drive, watch), Watchdogs(position), new WatchedFeedback(feedback, watch), new WatchedMeters(meters, watch), used);
    }

    private LinkCounts Counts(string device)
    {
        TurnaroundStatistics? turnaround = _devices.RegistersOrNull(device)?.Turnaround;
        return _devices.Counts(device) with
        {
            Identity = _identities.Of(device),
            TurnaroundMs = turnaround is { Answers: > 0 } t ? t.Median.TotalMilliseconds : null,
        };
    }

    private IReadOnlyList<IWatchdog> Watchdogs(UnitPositionDescription position) =>
    [
        .. from name in new[] { position.Up.Device, position.Down?.Device }.OfType<string>().Distinct()
           let watchdog = _file.Devices.First(d => d.Name == name).Watchdog
           where watchdog is not null
           select _devices.Watchdog(name, watchdog),
    ];
}

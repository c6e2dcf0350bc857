using Bench.Devices.Links;
using Bench.Devices.Modbus;
using Bench.Model.BenchFiles;
using Bench.Model.Instruments;
using Bench.Simulation.Faults;
using Bench.Simulation.Mismatch;

namespace Bench.Simulation.Benches;

/// <summary>
/// Opens in-process links to a <see cref="SimulatedBench"/>, with the time that bytes take on the wire, the devices'
/// turnaround and, where the bench has it, noise. A device acts in the middle of its turnaround.
/// </summary>
/// <param name="bench">The bench.</param>
/// <param name="time">Its clock.</param>
/// <param name="plan">What befalls its frames, by the clock's own zero; null for nothing. Faults of devices: <see cref="BenchFaults"/>.</param>
public sealed class SimulatedLinkOpener(SimulatedBench bench, TimeProvider time, FaultPlan? plan = null) : ILinkOpener
{
    /// <summary>Time a device takes to answer a request that it knows to be whole.</summary>
    public static readonly TimeSpan Turnaround = TimeSpan.FromMilliseconds(0.3);

    /// <summary>Time a TCP segment takes one way, in place of bit time (a switch and two stacks; common practice, no source).</summary>
    public static readonly TimeSpan TcpTransit = TimeSpan.FromMilliseconds(0.1);

    private readonly List<WireFaults> _faults = [];

    /// <summary>What the devices take longer than <see cref="Turnaround"/>; null for nothing.</summary>
    public Turnarounds? Later { get; init; }

    /// <summary>Frames that the plan has hit so far and that were not a feedback's own: 0 when only feedbacks suffered.</summary>
    public int HitsBesideFeedback => _faults.Sum(f => f.HitsBesideFeedback);

    /// <inheritdoc/>
    public ValueTask<ILink> OpenAsync(LinkDescription link, CancellationToken cancel)
    {
        ArgumentNullException.ThrowIfNull(link);
        cancel.ThrowIfCancellationRequested();
        TimeSpan character = CharacterTime(link);
        bool tcp = link.Kind == LinkKind.Tcp;

        // An RTU device knows a request to be whole by the silence after it (Modbus over Serial Line V1.02, 2.5.1.1), a line by its end.
        TimeSpan silence = tcp ? TcpTransit : link.Protocol == LinkProtocol.ModbusRtu ? RtuTiming.Gap(character) : TimeSpan.Zero;
        if (bench.Links.IsHidden(link.Name))
        {
            throw new DeviceFaultException(new DeviceFault(
                DeviceFaultKind.LinkLost, link.Name, link.Name, "the port is not there; check the adapter and its cable"));
        }

        SimulatedLink? mine = null;
        mine = new SimulatedLink(link.Name, character) { Closed = () => bench.Links.GiveBack(mine!) };
        SimulatedLink devices = new(link.Name, character);
        if (!bench.Links.TryTake(mine))
        {
            throw new DeviceFaultException(new DeviceFault(
                DeviceFaultKind.LinkLost, link.Name, link.Name, "the link is open already; a link has one owner, close the other"));
        }

        IWire requests = new Wire(time, character, silence + (Turnaround / 2), bench.Noise(link.Name, "requests"), devices.Inbox);
        IWire answers = new Wire(
            time, character, (tcp ? TcpTransit : TimeSpan.Zero) + (Turnaround / 2), bench.Noise(link.Name, "answers"), mine.Inbox)
        {
            Later = Later,
        };
        if (plan is not null)
        {
            WireFaults faults = new(plan, bench.File, link);
            _faults.Add(faults);
            requests = new FaultyWire(time, faults, WireSide.Requests, requests) { Ear = answers };
            answers = new FaultyWire(time, faults, WireSide.Answers, answers);
        }

        SimulatedLink.Join(mine, requests, devices, answers);
        _ = Serve(devices);
        return ValueTask.FromResult<ILink>(mine);
    }

    /// <summary>Time of one character: start bit, 8 data bits, parity, stop bits; zero for TCP.</summary>
    public static TimeSpan CharacterTime(LinkDescription link)
    {
        ArgumentNullException.ThrowIfNull(link);
        if (link.Kind == LinkKind.Tcp)
        {
            return TimeSpan.Zero;
        }

        int bits = 1 + 8 + (link.Parity == SerialParity.None ? 0 : 1) + link.StopBits;
        return TimeSpan.FromSeconds((double)bits / link.Baud);
    }

    private async Task Serve(SimulatedLink link)
    {
        try
        {
            await bench.ServeAsync(link.Name, link, CancellationToken.None);
        }
        catch (IOException)
        {
            // The line was cut; nobody is left to answer.
        }
    }
}

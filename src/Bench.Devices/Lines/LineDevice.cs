using Bench.Devices.Buses;
using Bench.Model.BenchFiles;
using Bench.Model.Instruments;

namespace Bench.Devices.Lines;

/// <summary>One device that speaks lines of text, on a link that it may share: takes turns, counts exchanges, says faults in words.</summary>
public sealed class LineDevice
{
    private readonly LinkOwner<LineClient> _owner;
    private readonly DeviceDescription _device;
    private readonly bool _isFeedback;
    private readonly string _terminator;
    private readonly TimeSpan _timeout;
    private readonly ExchangeCounter _counter = new();

    /// <summary>Makes a device.</summary>
    /// <param name="owner">Its link's owner.</param>
    /// <param name="device">Its description.</param>
    /// <param name="terminator">What ends its lines.</param>
    /// <param name="isFeedback">Whether it is a unit's own feedback.</param>
    public LineDevice(LinkOwner<LineClient> owner, DeviceDescription device, string terminator, bool isFeedback)
    {
        _owner = owner;
        _device = device;
        _terminator = terminator;
        _isFeedback = isFeedback;
        _timeout = TimeSpan.FromMilliseconds(device.TimeoutMs);
    }

    /// <summary>The device's name in the bench file.</summary>
    public string Name => _device.Name;

    /// <summary>Exchanges so far.</summary>
    public LinkCounts Counts => _counter.Of(_device.Name, _owner.Link, _isFeedback);

    /// <summary>Waits for a turn on the device's link.</summary>
    public ValueTask<LinkTurn<LineClient>> TakeTurnAsync(BusClass line, CancellationToken cancel) => _owner.TakeTurnAsync(line, cancel);

    /// <summary>Asks once, or once more when <paramref name="retry"/> and no good answer came.</summary>
    /// <param name="line">Who goes first.</param>
    /// <param name="message">The line to send.</param>
    /// <param name="judge">What is wrong with an answer; null when nothing.</param>
    /// <param name="retry">Whether to ask once more.</param>
    /// <param name="cancel">Leaves the line; what is on the wire is waited for.</param>
    public async ValueTask<LineResult> AskAsync(
        BusClass line, string message, Func<string, DeviceFaultKind?> judge, bool retry, CancellationToken cancel)
    {
        while (true)
        {
            using LinkTurn<LineClient> turn = await TakeTurnAsync(line, cancel);
            LineResult result = await SendAsync(turn, message, judge);
            if (!retry || result.Fault is not (DeviceFaultKind.Silent or DeviceFaultKind.Garbled))
            {
                return result;
            }

            retry = false;
        }
    }

    /// <summary>Sends a line once, in a turn already taken.</summary>
    /// <param name="turn">The turn.</param>
    /// <param name="message">The line to send.</param>
    /// <param name="judge">What is wrong with the answer, null when nothing; no judge where no answer comes.</param>
    public async ValueTask<LineResult> SendAsync(LinkTurn<LineClient> turn, string message, Func<string, DeviceFaultKind?>? judge)
    {
        LineResult result = await turn.Client.ExchangeAsync(message, _terminator, judge is not null, _timeout, CancellationToken.None);
        if (result.Ok && judge is not null && judge(result.Text) is DeviceFaultKind wrong)
        {
            result = result with { Fault = wrong };
        }

        return Count(result);
    }

    /// <summary>Says a failed exchange in words.</summary>
    /// <param name="result">The exchange; not Ok.</param>
    /// <param name="asked">What was asked, e.g. "to switch relay 3 off".</param>
    public DeviceFault Fault(in LineResult result, string asked) => new(
        result.Fault ?? DeviceFaultKind.Silent,
        _device.Name,
        _owner.Link,
        result.Fault switch
        {
            DeviceFaultKind.Garbled => result.Text.Length > 0
                ? $"asked {asked}, got \"{result.Text}\", which is no answer to it; check speed and parity, and what the bench file expects against the device's manual"
                : $"asked {asked}, got a damaged answer; check speed and parity, and the cable",
            DeviceFaultKind.Refused => $"asked {asked}, it refused: {result.Text}; check the bench file against the device's manual",
            DeviceFaultKind.LinkLost => $"asked {asked}, but the link is gone; check the adapter, its cable and the network",
            _ => $"asked {asked}, no answer within {_device.TimeoutMs:0.#} ms; check its power, its wiring, the speed and how its lines end",
        });

    private LineResult Count(in LineResult result)
    {
        _counter.Count(result.Fault);
        return result;
    }
}

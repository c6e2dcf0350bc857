using System.Runtime.CompilerServices;
using Bench.Devices.Links;
using Bench.Devices.Modbus;
using Bench.Devices.Modbus.Client;
using Bench.Model.BenchFiles;
using Bench.Model.Instruments;

namespace Bench.Devices.Discovery;

/// <summary>
/// Walks the addresses and settings of a link and finds what answers. Polite: it only reads, asks each address one short
/// question per setting, keeps the line's pauses, and asks no more of an address that has answered.
/// </summary>
public sealed class LinkWalk(ILinkOpener opener, TimeProvider time)
{
    /// <summary>Wait for an answer: devices that answer at all do so within a few tens of milliseconds (common practice, no source).</summary>
    public static readonly TimeSpan AnswerTime = TimeSpan.FromMilliseconds(100);

    /// <summary>Rest after each question: a slow device is still busy with a frame that was not for it.</summary>
    public static readonly TimeSpan Rest = TimeSpan.FromMilliseconds(5);

    /// <summary>Longest a walk can take when nothing answers, but for the wire's own time.</summary>
    public static TimeSpan LongestOf(LinkDescription place, DiscoveryRange range)
    {
        ArgumentNullException.ThrowIfNull(range);
        return (AnswerTime + Rest) * (range.Addresses.Count * Settings(place, range).Count());
    }

    /// <summary>Walks; one step for each question.</summary>
    /// <param name="place">The link.</param>
    /// <param name="range">Where to look.</param>
    /// <param name="cancel">Stops between questions.</param>
    /// <exception cref="DeviceFaultException">The link can't be opened, or is lost.</exception>
    public async IAsyncEnumerable<DiscoveryStep> WalkAsync(
        LinkDescription place, DiscoveryRange range, [EnumeratorCancellation] CancellationToken cancel)
    {
        ArgumentNullException.ThrowIfNull(range);
        HashSet<int> heard = [];
        foreach (LinkDescription setting in Settings(place, range))
        {
            await using ILink link = await opener.OpenAsync(setting, cancel);
            await using ModbusClient client = new(link, setting.Protocol, time);
            foreach (int address in range.Addresses.Where(a => !heard.Contains(a)))
            {
                cancel.ThrowIfCancellationRequested();
                DiscoveredDevice? found = await AskAsync(client, setting, address);
                if (found is { Answer: not DiscoveredAnswer.Damaged })
                {
                    heard.Add(address);
                }

                yield return new DiscoveryStep(setting, address, found);
                await Task.Delay(Rest, time, cancel);
            }
        }
    }

    private static IEnumerable<LinkDescription> Settings(LinkDescription place, DiscoveryRange range)
    {
        ArgumentNullException.ThrowIfNull(place);
        return place.Kind == LinkKind.Tcp
            ? [place]
            : from parity in range.Parities
              from baud in range.Bauds
              select place with { Baud = baud, Parity = parity };
    }

    private static async Task<DiscoveredDevice?> AskAsync(ModbusClient client, LinkDescription setting, int address)
    {
        ushort[] word = new ushort[1];

        // Not cancelled in midst: a late answer would be taken for the next address's.
        ModbusResult result = await client.ReadRegistersAsync(
            address, RegisterTable.HoldingRegister, 0, word, AnswerTime, CancellationToken.None);
        return result.Fault switch
        {
            null => new DiscoveredDevice(setting, address, DiscoveredAnswer.Value, result.RoundTrip),

            // A gateway says so of an address behind which there is nobody.
            DeviceFaultKind.Refused when result.Exception is ExceptionCode.GatewayPathUnavailable or ExceptionCode.GatewayTargetFailedToRespond => null,
            DeviceFaultKind.Refused => new DiscoveredDevice(setting, address, DiscoveredAnswer.Refusal, result.RoundTrip),
            DeviceFaultKind.Garbled => new DiscoveredDevice(setting, address, DiscoveredAnswer.Damaged, TimeSpan.Zero),
            DeviceFaultKind.LinkLost => throw new DeviceFaultException(new DeviceFault(
                DeviceFaultKind.LinkLost, "link", setting.Name, "the link is gone; check the adapter, its cable and the network")),
            _ => null,
        };
    }
}

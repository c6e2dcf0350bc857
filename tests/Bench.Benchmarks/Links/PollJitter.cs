using System.Globalization;
using Bench.Devices.Buses;
using Bench.Devices.Links;
using Bench.Devices.Modbus.Client;
using Bench.Model.BenchFiles;


namespace Bench.Benchmarks.Links;

/// <summary>How late poll instants are: units on several TCP links, each link's units polled one after the other, evenly spread over 10 ms.</summary>
internal static class PollJitter
{
    private const int Links = 4;
    private const int UnitsPerLink = 8;
    private const int FirstFeedback = 11;
    private static readonly TimeSpan Period = TimeSpan.FromMilliseconds(10);

    /// <summary>Measures for a time.</summary>
    /// <returns>Lateness of each poll's request in ms, sorted; polls left out; polls that failed.</returns>
    public static async Task<(double[] LatenessMs, long Missed, long Failed)> MeasureAsync(TimeSpan length)
    {
        using Peer served = await Peer.StartAsync(
            Environment.ProcessPath!,
            "serve",
            Links.ToString(CultureInfo.InvariantCulture),
            UnitsPerLink.ToString(CultureInfo.InvariantCulture));
        Task<(List<double> Late, long Missed, long Failed)>[] loops =
            [.. served.Lines.Select((port, i) => Task.Factory.StartNew(
                () => PollAsync(int.Parse(port, CultureInfo.InvariantCulture), i, length).GetAwaiter().GetResult(),
                CancellationToken.None,
                TaskCreationOptions.LongRunning,
                TaskScheduler.Default))];
        (List<double> Late, long Missed, long Failed)[] all = await Task.WhenAll(loops);
        return ([.. all.SelectMany(a => a.Late).Order()], all.Sum(a => a.Missed), all.Sum(a => a.Failed));
    }

    private static async Task<(List<double> Late, long Missed, long Failed)> PollAsync(int port, int number, TimeSpan length)
    {
        LinkDescription description = new()
        {
            Name = "units",
            Kind = LinkKind.Tcp,
            Protocol = LinkProtocol.ModbusTcp,
            Host = "127.0.0.1",
            TcpPort = port,
        };
        await using ILink link = await new SystemLinkOpener(TimeProvider.System).OpenAsync(description, CancellationToken.None);
        await using ModbusClient client = new(link, description.Protocol, TimeProvider.System);
        TimeSpan slot = Period / UnitsPerLink;
        using Pacer pacer = new(TimeProvider.System, slot, number * (slot / Links), slack: Period);
        int warming = (int)(TimeSpan.FromSeconds(1) / slot);
        int polls = (int)(length / slot);
        List<double> late = new(polls);
        ushort[] word = new ushort[1];
        long failed = 0;
        long missedBefore = 0;
        for (int i = -warming; i < polls; i++)
        {
            await pacer.NextAsync(CancellationToken.None);
            TimeSpan lateness = pacer.Lateness;
            int unit = FirstFeedback + (Math.Abs(i) % UnitsPerLink);
            ModbusResult result = await client.ReadRegistersAsync(
                unit, RegisterTable.InputRegister, 0, word, TimeSpan.FromMilliseconds(40), CancellationToken.None);
            if (i >= 0)
            {
                late.Add(lateness.TotalMilliseconds);
                failed += result.Ok ? 0 : 1;
            }
            else
            {
                missedBefore = pacer.Missed;
            }
        }

        return (late, pacer.Missed - missedBefore, failed);
    }
}

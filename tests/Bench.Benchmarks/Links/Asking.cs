using System.Diagnostics;
using System.Globalization;
using Bench.Devices.Links;
using Bench.Devices.Modbus.Client;
using Bench.Model.BenchFiles;

namespace Bench.Benchmarks.Links;

/// <summary>
/// A child process that reads 10 input registers over and over and prints transactions per second and bytes allocated per
/// transaction, by any thread of the process.
/// </summary>
internal static class Asking
{
    private static readonly TimeSpan Patience = TimeSpan.FromSeconds(5);

    public static async Task<int> RunAsync(string kind, string where, string reads)
    {
        bool tcp = kind == "tcp";
        LinkDescription description = new()
        {
            Name = "peer",
            Kind = tcp ? LinkKind.Tcp : LinkKind.Serial,
            Protocol = tcp ? LinkProtocol.ModbusTcp : LinkProtocol.ModbusRtu,
            Host = "127.0.0.1",
            TcpPort = tcp ? int.Parse(where, CultureInfo.InvariantCulture) : 0,
            Port = tcp ? "" : where,
        };
        ILink opened = await new SystemLinkOpener(TimeProvider.System).OpenAsync(description, CancellationToken.None);
        await using ILink link = tcp ? opened : new UnpacedLink(opened);
        await using ModbusClient client = new(link, description.Protocol, TimeProvider.System);
        int measured = int.Parse(reads, CultureInfo.InvariantCulture);
        await AskAsync(client, measured);
        await AskAsync(client, measured);

        // Before the clock: a first measurement allocates what it measures with.
        _ = GC.GetTotalAllocatedBytes(precise: true);
        Stopwatch watch = Stopwatch.StartNew();
        long before = GC.GetTotalAllocatedBytes(precise: true);
        await AskAsync(client, measured);
        double seconds = watch.Elapsed.TotalSeconds;
        double bytes = GC.GetTotalAllocatedBytes(precise: true) - before;
        Console.WriteLine(FormattableString.Invariant($"{measured / seconds:0.0} {bytes / measured:0.000}"));
        return 0;
    }

    private static async Task AskAsync(ModbusClient client, int reads)
    {
        ushort[] words = new ushort[10];
        for (int i = 0; i < reads; i++)
        {
            int first = i % 100;
            ModbusResult result = await client.ReadRegistersAsync(
                5, RegisterTable.InputRegister, first, words, Patience, CancellationToken.None);
            if (!result.Ok || words[0] != 1000 + first)
            {
                throw new InvalidOperationException($"read {i}: {result.Fault}, {words[0]}");
            }
        }
    }
}

using Bench.Devices.Links;
using Bench.Devices.Modbus;
using Bench.Devices.Modbus.Client;
using Bench.Model.BenchFiles;
using Bench.Model.Profiles;
using Bench.Simulation.Benches;
using Bench.Simulation.Time;

namespace Bench.Benchmarks.Links;

/// <summary>What share of a simulated wire's greatest rate the client reaches, in virtual time.</summary>
internal static class WireShare
{
    private const int Reads = 2000;

    /// <summary>A position's meters and inputs.</summary>
    private const int Registers = 3;

    /// <summary>Measures at one speed, 8N1, with a position's meters and inputs in one read.</summary>
    /// <returns>Transactions per second, the most the wire carries with this device, and bytes allocated by both ends per transaction.</returns>
    public static (double Rate, double Most, double Bytes) Measure(int baud)
    {
        VirtualTime time = new(new DateTimeOffset(2026, 1, 1, 0, 0, 0, TimeSpan.Zero));
        string text = StandardBench.OnSerialPort(
            "simulated", [DriveKind.Reversing, DriveKind.Reversing, DriveKind.Reversing], new DateOnly(2026, 1, 1), baud);
        BenchFile file = BenchFileReader.Read(text, "bench.toml");
        SimulatedLinkOpener opener = new(new SimulatedBench(file, new Dictionary<string, SimulatedUnit>(), time, seed: 1), time);
        long allocated = 0;
        TimeSpan took = time.Run(async () =>
        {
            await using ILink link = await opener.OpenAsync(file.Links[0], CancellationToken.None);
            await using ModbusClient client = new(link, LinkProtocol.ModbusRtu, time);
            await AskAsync(client);
            TimeSpan begin = time.Elapsed;
            allocated = GC.GetAllocatedBytesForCurrentThread();
            await AskAsync(client);
            allocated = GC.GetAllocatedBytesForCurrentThread() - allocated;
            return time.Elapsed - begin;
        });

        // The rule counts a device that answers after the least silence; this one takes its turnaround besides.
        double most = 1 / ((1 / new WireRate(baud, 10).TransactionsPerSecond(8, 5 + (2 * Registers))) + SimulatedLinkOpener.Turnaround.TotalSeconds);
        return (Reads / took.TotalSeconds, most, (double)allocated / Reads);
    }

    private static async Task AskAsync(ModbusClient client)
    {
        ushort[] words = new ushort[Registers];
        for (int i = 0; i < Reads; i++)
        {
            ModbusResult result = await client.ReadRegistersAsync(
                1, RegisterTable.InputRegister, 0, words, TimeSpan.FromSeconds(1), CancellationToken.None);
            if (!result.Ok)
            {
                throw new InvalidOperationException($"read {i}: {result.Fault} {result.Exception}");
            }
        }
    }
}

using System.Globalization;
using Bench.Devices.Links;
using Bench.Devices.Modbus;
using Bench.Devices.Modbus.Client;
using Bench.Model.BenchFiles;
using Bench.Model.Instruments;

namespace Bench.Benchmarks.Interop;

/// <summary>
/// A child process that asks another program's server for everything, at random from a seed, and holds each answer against
/// what it wrote itself. Device 5 has 200 of each: inputs on where the address is a multiple of 3, input registers 1000 + address.
/// </summary>
internal sealed class Exerciser(ModbusClient client, Random random)
{
    private const int Device = 5;
    private const int Count = 200;
    private static readonly TimeSpan Patience = TimeSpan.FromSeconds(5);
    private static readonly CancellationToken None = CancellationToken.None;

    private readonly ushort[] _registers = new ushort[Count];
    private readonly bool[] _coils = new bool[Count];
    private int _mismatches;

    /// <summary>Runs it and prints how many transactions and mismatches there were.</summary>
    /// <param name="kind">tcp, rtu (a port) or rtu-over-tcp.</param>
    /// <param name="where">A TCP port of this machine, or the name of a serial port.</param>
    /// <param name="transactions">How many.</param>
    public static async Task<int> RunAsync(string kind, string where, string transactions)
    {
        bool serial = kind == "rtu";
        LinkDescription description = new()
        {
            Name = "peer",
            Kind = serial ? LinkKind.Serial : LinkKind.Tcp,
            Protocol = kind == "tcp" ? LinkProtocol.ModbusTcp : LinkProtocol.ModbusRtu,
            Host = "127.0.0.1",
            TcpPort = serial ? 0 : int.Parse(where, CultureInfo.InvariantCulture),
            Port = serial ? where : "",
        };
        await using ILink link = await new SystemLinkOpener(TimeProvider.System).OpenAsync(description, None);
        await using ModbusClient client = new(link, description.Protocol, TimeProvider.System);
        Exerciser exerciser = new(client, new Random(1));
        int asked = int.Parse(transactions, CultureInfo.InvariantCulture);
        for (int i = 0; i < asked; i++)
        {
            await exerciser.AskAsync(i % 10);
        }

        Console.WriteLine(FormattableString.Invariant($"transactions={asked} mismatches={exerciser._mismatches}"));
        return exerciser._mismatches == 0 ? 0 : 1;
    }

    private async Task AskAsync(int what)
    {
        int at = random.Next(Count);
        int many = random.Next(1, Math.Min(100, Count - at) + 1);
        ushort value = (ushort)random.Next(0x10000);
        ushort[] words = new ushort[many];
        bool[] bits = new bool[many];
        switch (what)
        {
            case 0:
                Hold("02", await client.ReadBitsAsync(Device, RegisterTable.DiscreteInput, at, bits, Patience, None));
                Hold("02", bits.Select((b, i) => b == ((at + i) % 3 == 0)));
                break;
            case 1:
                Hold("04", await client.ReadRegistersAsync(Device, RegisterTable.InputRegister, at, words, Patience, None));
                Hold("04", words.Select((w, i) => w == 1000 + at + i));
                break;
            case 2:
                _coils[at] = value % 2 == 1;
                Hold("05", await client.WriteCoilAsync(Device, at, _coils[at], Patience, None));
                break;
            case 3:
                Fill(bits);
                bits.CopyTo(_coils, at);
                Hold("0F", await client.WriteCoilsAsync(Device, at, bits, Patience, None));
                break;
            case 4:
                Hold("01", await client.ReadBitsAsync(Device, RegisterTable.Coil, at, bits, Patience, None));
                Hold("01", bits.Select((b, i) => b == _coils[at + i]));
                break;
            case 5:
                _registers[at] = value;
                Hold("06", await client.WriteRegisterAsync(Device, at, value, Patience, None));
                break;
            case 6:
                Fill(words);
                words.CopyTo(_registers, at);
                Hold("10", await client.WriteRegistersAsync(Device, at, words, Patience, None));
                break;
            case 7:
                ushort or = (ushort)random.Next(0x10000);
                _registers[at] = (ushort)((_registers[at] & value) | (or & ~value));
                Hold("16", await client.MaskWriteRegisterAsync(Device, at, value, or, Patience, None));
                break;
            case 8:
                ushort[] written = new ushort[Math.Min(many, 50)];
                Fill(written);
                written.CopyTo(_registers, at);
                Hold("17", await client.ReadWriteRegistersAsync(Device, at, written, at, words, Patience, None));
                Hold("17", words.Select((w, i) => w == _registers[at + i]));
                break;
            default:
                ModbusResult refused = await client.ReadRegistersAsync(Device, RegisterTable.HoldingRegister, 5000, words, Patience, None);
                Hold("refusal", [refused.Fault == DeviceFaultKind.Refused && refused.Exception == ExceptionCode.IllegalDataAddress]);
                Hold("03", await client.ReadRegistersAsync(Device, RegisterTable.HoldingRegister, at, words, Patience, None));
                Hold("03", words.Select((w, i) => w == _registers[at + i]));
                break;
        }
    }

    private void Fill(bool[] bits)
    {
        for (int i = 0; i < bits.Length; i++)
        {
            bits[i] = random.Next(2) == 1;
        }
    }

    private void Fill(ushort[] words)
    {
        for (int i = 0; i < words.Length; i++)
        {
            words[i] = (ushort)random.Next(0x10000);
        }
    }

    private void Hold(string function, ModbusResult result)
    {
        if (!result.Ok)
        {
            _mismatches++;
            Console.Error.WriteLine($"function {function}: {result.Fault} {result.Exception}");
        }
    }

    private void Hold(string function, IEnumerable<bool> equal)
    {
        if (!equal.All(e => e))
        {
            _mismatches++;
            Console.Error.WriteLine($"function {function}: not what was written");
        }
    }
}

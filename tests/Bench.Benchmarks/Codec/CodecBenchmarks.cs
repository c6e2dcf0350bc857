using Bench.Devices.Modbus;
using Bench.Devices.Modbus.Server;
using Bench.Model.BenchFiles;
using BenchmarkDotNet.Attributes;

namespace Bench.Benchmarks.Codec;

/// <summary>What frames cost without a link: the CRC, and a request for 10 registers answered by a device.</summary>
[MemoryDiagnoser]
public class CodecBenchmarks
{
    private readonly byte[] _request = new byte[8];
    private readonly byte[] _answer = new byte[ModbusLimits.MostRtuBytes];
    private ModbusServer _server = null!;

    /// <summary>Makes the frame and the device.</summary>
    [GlobalSetup]
    public void Prepare()
    {
        RegisterMap map = new();
        for (int i = 0; i < 10; i++)
        {
            int value = 1000 + i;
            map.OnRead(RegisterTable.InputRegister, i, () => value);
        }

        _server = new ModbusServer(new Dictionary<int, RegisterMap> { [5] = map });
        int length = new ModbusRequest { Function = FunctionCode.ReadInputRegisters, Quantity = 10 }.Encode(_request.AsSpan(1));
        RtuFrame.Close(_request, 5, length);
    }

    /// <summary>The CRC of the longest frame.</summary>
    [Benchmark]
    public ushort Crc() => Crc16.Of(_answer);

    /// <summary>A whole answer.</summary>
    [Benchmark]
    public int Answer() => _server.RespondRtu(_request, _answer);
}

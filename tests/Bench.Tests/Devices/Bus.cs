using Bench.Devices.Buses;
using Bench.Devices.Modbus;
using Bench.Devices.Modbus.Client;
using Bench.Devices.Modbus.Server;
using Bench.Model.BenchFiles;

namespace Bench.Tests.Devices;

/// <summary>A link with devices at addresses 1 and 2: coils 0 to 9, holding registers 4 to 9, input registers 0 to 39, as plain arrays.</summary>
public sealed class Bus
{
    private readonly ModbusServer _server;

    public Bus(SteppedTime time)
    {
        Link = new ScriptedLink(time) { Far = Answer };
        Owner = new LinkOwner<IModbusClient>("bus", new ModbusClient(Link, LinkProtocol.ModbusRtu, time));
        _server = new ModbusServer(new Dictionary<int, RegisterMap> { [1] = Map(0), [2] = Map(1) });
        First = new BusDevice(Owner, Description("board", 1), isFeedback: false);
        Second = new BusDevice(Owner, Description("other", 2), isFeedback: false);
    }

    public ScriptedLink Link { get; }

    public LinkOwner<IModbusClient> Owner { get; }

    public BusDevice First { get; }

    public BusDevice Second { get; }

    public int[][] Coils { get; } = [new int[10], new int[10]];

    public int[] Registers { get; } = new int[40];

    /// <summary>Holding registers, of both devices alike; there are none below 4.</summary>
    public int[] Holding { get; } = new int[10];

    /// <summary>Every write the devices obeyed, as "device.coil=value" or "device.holding register=value".</summary>
    public List<string> Writes { get; } = [];

    /// <summary>Whether the answer to the nth request, from 1, is lost on its way back.</summary>
    public Func<int, bool> Loses { get; set; } = _ => false;

    public static DeviceDescription Description(string name, int address) =>
        new() { Name = name, Link = "bus", Address = address, TimeoutMs = 40 };

    public IEnumerable<(TimeSpan After, byte[] Bytes)> Answer(byte[] request)
    {
        byte[] response = new byte[ModbusLimits.MostRtuBytes];
        int length = _server.RespondRtu(request, response);
        return Loses(Link.Sent.Count) ? [] : [(TimeSpan.FromMilliseconds(2), response[..length])];
    }

    private RegisterMap Map(int device)
    {
        RegisterMap map = new();
        for (int i = 0; i < 10; i++)
        {
            int address = i;
            map.OnRead(RegisterTable.Coil, address, () => Coils[device][address]);
            map.OnWrite(RegisterTable.Coil, address, v =>
            {
                Coils[device][address] = v;
                Writes.Add($"{device}.{address}={v}");
            });
        }

        for (int i = 4; i < 10; i++)
        {
            int address = i;
            map.OnRead(RegisterTable.HoldingRegister, address, () => Holding[address]);
            map.OnWrite(RegisterTable.HoldingRegister, address, v =>
            {
                Holding[address] = v;
                Writes.Add($"{device}.holding {address}={v}");
            });
        }

        for (int i = 0; i < 40; i++)
        {
            int address = i;
            map.OnRead(RegisterTable.InputRegister, address, () => Registers[address]);
        }

        return map;
    }
}

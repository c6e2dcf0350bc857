using System.Globalization;
using System.Net;
using System.Net.Sockets;
using Bench.Devices.Links;
using Bench.Devices.Modbus;
using Bench.Devices.Modbus.Server;
using Bench.Model.BenchFiles;

namespace Bench.Benchmarks.Interop;

/// <summary>A child process that serves device 5 to other programs' clients, as <see cref="Exerciser"/> expects of theirs. Says "ready".</summary>
internal static class ServedMemory
{
    private const int Count = 200;

    /// <summary>Serves until it is ended.</summary>
    /// <param name="kind">tcp, rtu (a port) or rtu-over-tcp.</param>
    /// <param name="where">A TCP port of this machine, or the name of a serial port.</param>
    public static async Task<int> RunAsync(string kind, string where)
    {
        ModbusServer server = new(new Dictionary<int, RegisterMap> { [5] = Map() });
        LinkProtocol protocol = kind == "tcp" ? LinkProtocol.ModbusTcp : LinkProtocol.ModbusRtu;
        if (kind == "rtu")
        {
            LinkDescription port = new() { Name = "port", Kind = LinkKind.Serial, Protocol = protocol, Port = where };
            await using ILink link = await new SystemLinkOpener(TimeProvider.System).OpenAsync(port, CancellationToken.None);
            Console.WriteLine("ready");
            await new ModbusServerSession(server).RunAsync(link, protocol, CancellationToken.None);
            return 0;
        }

        using TcpListener listener = new(IPAddress.Loopback, int.Parse(where, CultureInfo.InvariantCulture));
        listener.Start();
        Console.WriteLine("ready");
        while (true)
        {
            await using TcpLink link = new("client", await listener.AcceptSocketAsync());
            try
            {
                await new ModbusServerSession(server).RunAsync(link, protocol, CancellationToken.None);
            }
            catch (IOException)
            {
                // The client left without a word; the next may come.
            }
        }
    }

    private static RegisterMap Map()
    {
        RegisterMap map = new() { Identity = new DeviceIdentity("Bench contributors", "interop", "1.0") };
        int[] coils = new int[Count];
        int[] registers = new int[Count];
        for (int i = 0; i < Count; i++)
        {
            int at = i;
            map.OnRead(RegisterTable.DiscreteInput, at, () => at % 3 == 0 ? 1 : 0)
                .OnRead(RegisterTable.InputRegister, at, () => 1000 + at)
                .OnRead(RegisterTable.Coil, at, () => coils[at])
                .OnWrite(RegisterTable.Coil, at, v => coils[at] = v)
                .OnRead(RegisterTable.HoldingRegister, at, () => registers[at])
                .OnWrite(RegisterTable.HoldingRegister, at, v => registers[at] = v);
        }

        return map;
    }
}

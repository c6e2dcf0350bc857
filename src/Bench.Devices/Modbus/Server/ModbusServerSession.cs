using Bench.Devices.Links;
using Bench.Model.BenchFiles;

namespace Bench.Devices.Modbus.Server;

/// <summary>Serves devices over one link until it closes.</summary>
public sealed class ModbusServerSession(ModbusServer server)
{
    /// <summary>Answers requests until the other end closes or the token is cancelled.</summary>
    /// <exception cref="IOException">The link is gone.</exception>
    /// <exception cref="OperationCanceledException">Cancelled.</exception>
    public async Task RunAsync(ILink link, LinkProtocol protocol, CancellationToken cancel)
    {
        bool rtu = protocol == LinkProtocol.ModbusRtu;
        RequestFinder finder = new(server, rtu);
        byte[] request = new byte[ModbusLimits.MostTcpBytes];
        byte[] response = new byte[ModbusLimits.MostTcpBytes];
        while (true)
        {
            int read = await link.ReadAsync(finder.Room, cancel);
            if (read == 0)
            {
                return;
            }

            finder.Added(read);
            for (int length; (length = finder.TryTake(request)) > 0;)
            {
                int answer = rtu
                    ? server.RespondRtu(request.AsSpan(0, length), response)
                    : server.RespondTcp(request.AsSpan(0, length), response);
                if (answer > 0)
                {
                    await link.WriteAsync(response.AsMemory(0, answer), cancel);
                }
            }
        }
    }
}

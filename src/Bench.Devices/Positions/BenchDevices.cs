using Bench.Devices.Buses;
using Bench.Devices.Lines;
using Bench.Devices.Links;
using Bench.Devices.Modbus.Client;
using Bench.Devices.Streams;
using Bench.Model.BenchFiles;
using Bench.Model.Configuration;

namespace Bench.Devices.Positions;

/// <summary>Opens the links and devices of a bench file.</summary>
public static class BenchDevices
{
    /// <summary>Opens all links of a bench. Writes nothing to any device.</summary>
    /// <exception cref="ConfigurationException">The file names an output that is no plain coil or line.</exception>
    /// <exception cref="Bench.Model.Instruments.DeviceFaultException">A link can't be opened; those already open are closed.</exception>
    public static async Task<OpenBench> OpenAsync(BenchFile file, ILinkOpener opener, TimeProvider time, CancellationToken cancel)
    {
        ConfigurationError[] errors = [.. file.Positions.SelectMany(p => Outputs(file, p))];
        if (errors.Length > 0)
        {
            throw new ConfigurationException(errors);
        }

        List<IAsyncDisposable> owned = [];
        Dictionary<string, LinkOwner<IModbusClient>> buses = [];
        Dictionary<string, LinkOwner<LineClient>> lines = [];
        Dictionary<string, StreamDevice> streams = [];
        List<ReopeningLink> links = [];
        try
        {
            foreach (LinkDescription description in file.Links)
            {
                ReopeningLink link = await ReopeningLink.OpenAsync(opener, description, time, cancel);
                links.Add(link);
                owned.Add(link);
                if (description.Protocol is LinkProtocol.ModbusRtu or LinkProtocol.ModbusTcp)
                {
                    ModbusClient client = new(link, description.Protocol, time);
                    owned.Add(client);
                    buses[description.Name] = new LinkOwner<IModbusClient>(description.Name, client);
                }
                else if (description.Protocol == LinkProtocol.Stream)
                {
                    // Before its link in the order of closing: it reads until it is closed.
                    foreach (DeviceDescription device in file.Devices.Where(d => d.Link == description.Name))
                    {
                        StreamDevice stream = new(link, device, PositionChannels.IsFeedback(file, device.Name), time);
                        owned.Insert(owned.Count - 1, stream);
                        streams[device.Name] = stream;
                        stream.Start();
                    }
                }
                else
                {
                    LineClient client = new(link, time);
                    owned.Add(client);
                    lines[description.Name] = new LinkOwner<LineClient>(description.Name, client);
                }
            }

            return new OpenBench(file, new OpenDevices(file, buses, lines, streams), links, time, owned);
        }
        catch
        {
            foreach (IAsyncDisposable opened in owned)
            {
                await opened.DisposeAsync();
            }

            throw;
        }
    }

    // An inverted coil would energise its unit whenever the board restarts, and no switch-off could be trusted.
    private static IEnumerable<ConfigurationError> Outputs(BenchFile file, UnitPositionDescription position) =>
        from output in new[] { (Key: position.Target is null ? "up" : "power", Channel: position.Up), (Key: "down", Channel: position.Down) }
        where output.Channel is { } c && ((c.Table != RegisterTable.Coil && c.Text is null) || c.ActiveLow || c.Bit is not null)
        select new ConfigurationError(
            file.Name, 0, $"position '{position.Name}' {output.Key}", output.Channel.ToString(), "an output is a coil or a line, whole and not active-low");
}

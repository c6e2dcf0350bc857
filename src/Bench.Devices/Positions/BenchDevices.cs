using Bench.Devices.Buses;
using Bench.Devices.Lines;
using Bench.Devices.Links;
using Bench.Devices.Modbus.Client;
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
        Dictionary<string, BusOwner> buses = [];
        Dictionary<string, LineOwner> lines = [];
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
                    buses[description.Name] = new BusOwner(description.Name, client);
                }
                else
                {
                    LineClient client = new(link, time);
                    owned.Add(client);
                    lines[description.Name] = new LineOwner(description.Name, client);
                }
            }

            return new OpenBench(file, buses, lines, links, owned, time);
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
        from output in new[] { (Key: "up", Channel: position.Up), (Key: "down", Channel: position.Down) }
        where output.Channel is { } c && ((c.Table != RegisterTable.Coil && c.Text is null) || c.ActiveLow || c.Bit is not null)
        select new ConfigurationError(
            file.Name, 0, $"position '{position.Name}' {output.Key}", output.Channel.ToString(), "an output is a coil or a line, whole and not active-low");
}

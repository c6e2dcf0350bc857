using System.Globalization;
using System.Text;
using Bench.Devices.Discovery;
using Bench.Model.BenchFiles;
using Bench.Model.Serialization;

namespace Bench.Cli.Checking;

/// <summary>What was found as lines for a bench file.</summary>
internal static class DiscoveredLines
{
    /// <summary>Least time-out that is written: as in the bench files that ship.</summary>
    private const double LeastTimeoutMs = 40;

    /// <summary>A device gets this many times the round trip seen, rounded up to ten milliseconds; one answer says little of the slowest.</summary>
    private const double RoundTrips = 4;

    /// <summary>The lines, the link with the setting at which most answered first; empty of none.</summary>
    public static string Of(IReadOnlyList<DiscoveredDevice> found)
    {
        if (found.Count == 0)
        {
            return "";
        }

        LinkDescription link = found.GroupBy(d => d.Link).OrderByDescending(g => g.Count()).First().Key;
        StringBuilder text = new();
        text.Append(CultureInfo.InvariantCulture, $"[[link]]\nname = \"{link.Name}\"\nkind = \"{BenchJson.Word(link.Kind)}\"\nprotocol = \"{BenchJson.Word(link.Protocol)}\"\n");
        text.Append(link.Kind == LinkKind.Serial
            ? string.Create(CultureInfo.InvariantCulture, $"port = '{link.Port}'\nbaud = {link.Baud}\nparity = \"{BenchJson.Word(link.Parity)}\"\n")
            : string.Create(CultureInfo.InvariantCulture, $"host = '{link.Host}'\ntcp_port = {link.TcpPort}\n"));
        foreach (DiscoveredDevice device in found.OrderBy(d => d.Address))
        {
            string other = device.Link == link ? "" : $"# answers at {device.Link.Baud} baud, parity {BenchJson.Word(device.Link.Parity)}: set it to the link's\n";
            double timeout = Math.Max(LeastTimeoutMs, 10 * Math.Ceiling(RoundTrips * device.RoundTrip.TotalMilliseconds / 10));
            text.Append(CultureInfo.InvariantCulture, $"\n{other}[[device]]\nname = \"device-{device.Address}\"\nlink = \"{link.Name}\"\naddress = {device.Address}\ntimeout_ms = {timeout:0}\n");
        }

        return text.ToString().TrimEnd();
    }
}

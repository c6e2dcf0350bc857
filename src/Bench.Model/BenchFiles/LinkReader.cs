using System.Globalization;
using Bench.Model.Configuration;

namespace Bench.Model.BenchFiles;

/// <summary>Reads one <c>[[link]]</c>.</summary>
internal static class LinkReader
{
    private const int DefaultBaud = 115200;
    private const int DefaultTcpPort = 502;

    // Registered for SCPI over a plain TCP connection with IANA, "scpi-raw" (from memory).
    private const int DefaultScpiPort = 5025;

    // The usual speeds of serial ports; a misprint such as 11520 would otherwise look like a dead bus. Common practice, no source.
    private static readonly int[] Bauds = [1200, 2400, 4800, 9600, 19200, 38400, 57600, 115200, 230400, 460800, 921600];

    private static readonly string[] SerialKeys = ["port", "baud", "parity", "stop_bits"];
    private static readonly string[] TcpKeys = ["host", "tcp_port"];

    public static LinkDescription Read(Section section, KnownDevices known)
    {
        string? name = section.Id("name");
        known.LinkNames.Take(section, "name", name);
        LinkKind? kind = section.Word<LinkKind>("kind");
        LinkProtocol? protocol = section.Word<LinkProtocol>("protocol");
        if (kind == LinkKind.Serial && protocol == LinkProtocol.ModbusTcp)
        {
            section.Refuse("protocol", null, "a serial link speaks \"modbus-rtu\", \"scpi\", \"lines\" or \"stream\"");
        }

        LinkDescription link = new()
        {
            Name = name ?? "",
            Kind = kind ?? default,
            Protocol = protocol ?? default,
            Port = section.Text("port", required: kind == LinkKind.Serial) ?? "",
            Baud = section.Whole("baud", 1, int.MaxValue, required: false) ?? DefaultBaud,
            Parity = section.Word<SerialParity>("parity", required: false) ?? SerialParity.None,
            StopBits = section.Whole("stop_bits", 1, 2, required: false) ?? 1,
            Host = section.Text("host", required: kind == LinkKind.Tcp) ?? "",
            TcpPort = section.Whole("tcp_port", 1, 65535, required: kind == LinkKind.Tcp && protocol is LinkProtocol.Lines or LinkProtocol.Stream) ?? (protocol == LinkProtocol.Scpi ? DefaultScpiPort : DefaultTcpPort),
        };
        if (!Bauds.Contains(link.Baud))
        {
            section.Refuse("baud", null, $"allowed: {string.Join(", ", Bauds.Select(b => b.ToString(CultureInfo.InvariantCulture)))}");
        }

        foreach (string key in (kind == LinkKind.Serial ? TcpKeys : kind == LinkKind.Tcp ? SerialKeys : []).Where(section.Has))
        {
            section.Refuse(key, null, kind == LinkKind.Serial ? "not for a serial link; remove it" : "not for a TCP link; remove it");
        }

        section.Close();
        if (name is not null && protocol is not null)
        {
            known.Add(link);
        }

        return link;
    }
}

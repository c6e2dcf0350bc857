using System.Globalization;
using Bench.Model.BenchFiles;

namespace Bench.Devices.Discovery;

/// <summary>Reads where a link is from a few words: the name or path of a serial port, or <c>host:port</c>.</summary>
public static class LinkPlace
{
    /// <summary>Name given to the link in what is printed for a bench file.</summary>
    public const string Name = "bus";

    /// <summary>The link. A serial one is at 115200 8N1 until a walk says otherwise.</summary>
    /// <exception cref="FormatException">It is neither; the message says what is allowed.</exception>
    public static LinkDescription Parse(string text)
    {
        ArgumentNullException.ThrowIfNull(text);
        int colon = text.LastIndexOf(':');
        if (!text.StartsWith('/') && colon > 0)
        {
            return int.TryParse(text.AsSpan(colon + 1), NumberStyles.None, CultureInfo.InvariantCulture, out int port) && port is > 0 and <= 65535
                ? new LinkDescription
                {
                    Name = Name,
                    Kind = LinkKind.Tcp,
                    Protocol = LinkProtocol.ModbusTcp,
                    Host = text[..colon].Trim('[', ']'),
                    TcpPort = port,
                }
                : throw new FormatException($"'{text}': after the colon stands a TCP port, 1 to 65535, e.g. 192.0.2.7:502");
        }

        bool isPort = text.StartsWith('/') || (text.StartsWith("COM", StringComparison.OrdinalIgnoreCase) && text.Length > 3);
        return isPort
            ? new LinkDescription { Name = Name, Kind = LinkKind.Serial, Protocol = LinkProtocol.ModbusRtu, Port = text }
            : throw new FormatException($"'{text}' is no link; give a serial port such as /dev/ttyUSB0 or COM3 ('bench check --ports' lists them), or host:port such as 192.0.2.7:502");
    }
}

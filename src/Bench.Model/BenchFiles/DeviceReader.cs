using System.Globalization;
using Bench.Model.Configuration;
using Bench.Model.Instruments;
using Bench.Model.Serialization;

namespace Bench.Model.BenchFiles;

/// <summary>Reads one <c>[[device]]</c>.</summary>
/// <param name="known">Links, and the devices read before.</param>
internal sealed class DeviceReader(KnownDevices known)
{
    // Modbus over Serial Line V1.02, 2.2: 1 to 247 address a device, 0 is broadcast, 248 to 255 are reserved.
    private const int LeastAddress = 1;
    private const int MostAddress = 247;

    private static readonly NumberRange Timeouts = new(5, 5000);

    private readonly UniqueNames _addresses = new("address on a link");
    private readonly Dictionary<string, LineTerminator> _terminators = [];
    private readonly UniqueNames _instruments = new("link that speaks SCPI");
    private readonly UniqueNames _streams = new("link that carries a stream");

    public DeviceDescription Read(Section section)
    {
        string? name = section.Id("name");
        known.Names.Take(section, "name", name);
        string? link = section.Id("link");
        known.LinkNames.Expect(section, "link", link);
        LinkProtocol? protocol = known.ProtocolOfLink(link);
        bool isScpi = protocol == LinkProtocol.Scpi;
        bool isAddressed = protocol is not (LinkProtocol.Scpi or LinkProtocol.Lines or LinkProtocol.Stream);
        int? address = !isAddressed ? null : section.Whole("address", LeastAddress, MostAddress);
        _addresses.Take(section, "address", link is null || address is null ? null : string.Create(CultureInfo.InvariantCulture, $"{link} {address}"));
        if (isScpi)
        {
            // Over a plain byte channel SCPI has no addresses: one instrument to a link.
            _instruments.Take(section, "link", link);
        }

        if (protocol == LinkProtocol.Stream)
        {
            _streams.Take(section, "link", link);
        }

        if (!isAddressed && section.Has("address"))
        {
            section.Refuse("address", null, isScpi ? "an instrument that speaks SCPI has none; remove it"
                : protocol == LinkProtocol.Stream ? "a stream has none; remove it"
                : "an address, if there is one, stands in the templates of [device.lines]; remove it");
        }

        double? timeout = section.Number("timeout_ms", Timeouts);
        WatchdogDescription? watchdog = WatchdogReader.Read(section.Table("watchdog", required: false), protocol == LinkProtocol.Lines);
        if (protocol is LinkProtocol.Scpi or LinkProtocol.Stream && section.Has("watchdog"))
        {
            section.Refuse("watchdog", null, "only for a board on a link that speaks Modbus or lines; remove it");
        }

        (double? supplyV, SupplyRange? supplyRange, int? supplyChannel) = SupplyReader.Read(section, protocol);
        LineSyntax? lines = ReadLines(section, link, protocol);
        StreamDescription? stream = ReadStream(section, known.Link(link), protocol, timeout);
        section.Close();
        return known.Add(new DeviceDescription
        {
            Name = name ?? "",
            Link = link ?? "",
            Address = address ?? 0,
            TimeoutMs = timeout ?? 0,
            Watchdog = watchdog,
            SupplyVoltageV = supplyV,
            SupplyRange = supplyRange,
            SupplyChannel = supplyChannel,
            Lines = lines,
            Stream = stream,
        });
    }

    private LineSyntax? ReadLines(Section device, string? link, LinkProtocol? protocol)
    {
        if (device.Table("lines", required: protocol == LinkProtocol.Lines) is not Section section)
        {
            return null;
        }

        if (protocol is not (LinkProtocol.Lines or null))
        {
            device.Refuse("lines", null, "only for a link that speaks \"lines\"; remove it, or change the link's protocol");
        }

        LineSyntax syntax = LineSyntaxReader.Read(section);
        if (link is not null && _terminators.TryGetValue(link, out LineTerminator before) && before != syntax.Terminator)
        {
            section.Refuse("terminator", null, $"devices on one link end their lines alike, \"{BenchJson.Word(before)}\" here");
        }
        else if (link is not null)
        {
            _terminators[link] = syntax.Terminator;
        }

        return syntax;
    }

    private static StreamDescription? ReadStream(Section device, LinkDescription? link, LinkProtocol? protocol, double? timeout)
    {
        if (device.Table("stream", required: protocol == LinkProtocol.Stream) is not Section section)
        {
            return null;
        }

        if (protocol is not (LinkProtocol.Stream or null))
        {
            device.Refuse("stream", null, "only for a link that speaks \"stream\"; remove it, or change the link's protocol");
        }

        return StreamDescriptionReader.Read(section, link, timeout);
    }
}

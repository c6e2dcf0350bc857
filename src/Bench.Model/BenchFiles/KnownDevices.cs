using Bench.Model.Configuration;

namespace Bench.Model.BenchFiles;

/// <summary>The links and devices read so far, for what refers to them.</summary>
internal sealed class KnownDevices
{
    private readonly Dictionary<string, LinkProtocol> _links = [];
    private readonly Dictionary<string, DeviceDescription> _devices = [];

    /// <summary>Names of links.</summary>
    public UniqueNames LinkNames { get; } = new("link");

    /// <summary>Names of devices.</summary>
    public UniqueNames Names { get; } = new("device");

    /// <summary>Takes a link whose protocol could be read.</summary>
    public void Add(string link, LinkProtocol protocol) => _links.TryAdd(link, protocol);

    /// <summary>Takes a device.</summary>
    public DeviceDescription Add(DeviceDescription device)
    {
        _devices.TryAdd(device.Name, device);
        return device;
    }

    /// <summary>What is spoken on a link; null when there is none of that name, which is noted already.</summary>
    public LinkProtocol? ProtocolOfLink(string? link) =>
        link is not null && _links.TryGetValue(link, out LinkProtocol protocol) ? protocol : null;

    /// <summary>How a device that speaks lines is asked; null when it does not.</summary>
    public LineSyntax? LinesOf(string device) => _devices.GetValueOrDefault(device)?.Lines;

    /// <summary>What a device speaks; null as for <see cref="ProtocolOfLink"/>.</summary>
    public LinkProtocol? ProtocolOf(string? device) =>
        device is not null && _devices.TryGetValue(device, out DeviceDescription? known) ? ProtocolOfLink(known.Link) : null;
}

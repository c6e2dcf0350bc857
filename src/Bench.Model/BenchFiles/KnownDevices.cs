using Bench.Model.Configuration;

namespace Bench.Model.BenchFiles;

/// <summary>The links and devices read so far, for what refers to them.</summary>
internal sealed class KnownDevices
{
    private readonly Dictionary<string, LinkDescription> _links = [];
    private readonly Dictionary<string, DeviceDescription> _devices = [];

    /// <summary>Names of links.</summary>
    public UniqueNames LinkNames { get; } = new("link");

    /// <summary>Names of devices.</summary>
    public UniqueNames Names { get; } = new("device");

    /// <summary>Takes a link whose protocol could be read.</summary>
    public void Add(LinkDescription link) => _links.TryAdd(link.Name, link);

    /// <summary>Takes a device.</summary>
    public DeviceDescription Add(DeviceDescription device)
    {
        _devices.TryAdd(device.Name, device);
        return device;
    }

    /// <summary>What is spoken on a link; null when there is none of that name, which is noted already.</summary>
    public LinkProtocol? ProtocolOfLink(string? link) =>
        Link(link)?.Protocol;

    /// <summary>A link; null as for <see cref="ProtocolOfLink"/>.</summary>
    public LinkDescription? Link(string? name) => name is null ? null : _links.GetValueOrDefault(name);

    /// <summary>How the frames of a device are made up; null when it pushes none.</summary>
    public StreamDescription? StreamOf(string device) => _devices.GetValueOrDefault(device)?.Stream;

    /// <summary>How a device that speaks lines is asked; null when it does not.</summary>
    public LineSyntax? LinesOf(string device) => _devices.GetValueOrDefault(device)?.Lines;

    /// <summary>What a device speaks; null as for <see cref="ProtocolOfLink"/>.</summary>
    public LinkProtocol? ProtocolOf(string? device) =>
        device is not null && _devices.TryGetValue(device, out DeviceDescription? known) ? ProtocolOfLink(known.Link) : null;
}

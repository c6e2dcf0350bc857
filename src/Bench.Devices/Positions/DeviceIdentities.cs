using Bench.Devices.Lines;
using Bench.Devices.Modbus;
using Bench.Devices.Scpi;
using Bench.Model.BenchFiles;

namespace Bench.Devices.Positions;

/// <summary>What the devices of an open bench say they are: Modbus by function 2B/0E, SCPI by *IDN?. Lines and streams have no standard way to say it.</summary>
internal sealed class DeviceIdentities(OpenDevices devices)
{
    private readonly Dictionary<string, string> _said = [];

    /// <summary>What a device said when it was asked; null when it did not, or was not asked yet.</summary>
    public string? Of(string device) => _said.GetValueOrDefault(device);

    /// <summary>Asks a device, once.</summary>
    public async ValueTask AskAsync(DeviceDescription device, CancellationToken cancel)
    {
        if (devices.Instrument(device.Name) is ScpiDevice instrument)
        {
            LineResult answer = await instrument.IdentifyAsync(cancel);
            Keep(device, answer.Ok ? answer.Text : null);
        }
        else if (devices.RegistersOrNull(device.Name) is { } registers)
        {
            DeviceIdentity? identity = await registers.ReadIdentityAsync(cancel);
            Keep(device, identity is null ? null : $"{identity.Vendor}, {identity.Product}, {identity.Revision}");
        }
    }

    private void Keep(DeviceDescription device, string? said)
    {
        if (!string.IsNullOrWhiteSpace(said))
        {
            _said[device.Name] = said.Trim();
        }
    }
}

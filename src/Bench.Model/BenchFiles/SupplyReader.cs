using System.Globalization;
using Bench.Model.Configuration;
using Bench.Model.Instruments;

namespace Bench.Model.BenchFiles;

/// <summary>Reads a device's <c>supply</c> table: a programmable supply.</summary>
internal static class SupplyReader
{
    // Extra-low voltage, as for a profile's supply.
    private static readonly NumberRange Volts = NumberRange.Positive(120);

    private const int MostChannels = 8;

    /// <summary>Reads it; all null for a device that is none.</summary>
    /// <param name="device">The device.</param>
    /// <param name="protocol">What its link speaks; null when that is not known.</param>
    public static (double? VoltageV, SupplyRange? Range, int? Channel) Read(Section device, LinkProtocol? protocol)
    {
        if (device.Table("supply", required: false) is not Section section)
        {
            return default;
        }

        if (protocol is not (LinkProtocol.Scpi or null))
        {
            device.Refuse("supply", null, "a programmable supply is on a link that speaks \"scpi\"; remove it, or change the link's protocol");
        }

        double? voltage = section.Number("voltage_v", Volts);
        bool settable = section.Has("lowest_v") || section.Has("highest_v");
        double? lowest = section.Number("lowest_v", Volts, required: settable);
        double? highest = section.Number("highest_v", Volts, required: settable);
        int? channel = section.Whole("channel", 1, MostChannels, required: false);
        section.Close();
        if (lowest > voltage)
        {
            section.Refuse("lowest_v", null, string.Create(CultureInfo.InvariantCulture, $"at most voltage_v ({voltage}) is allowed"));
        }

        if (highest < voltage)
        {
            section.Refuse("highest_v", null, string.Create(CultureInfo.InvariantCulture, $"at least voltage_v ({voltage}) is allowed"));
        }

        return (voltage, lowest is double low && highest is double high ? new SupplyRange(low, high) : null, channel);
    }
}

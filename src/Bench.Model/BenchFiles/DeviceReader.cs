using System.Globalization;
using Bench.Model.Configuration;

namespace Bench.Model.BenchFiles;

/// <summary>Reads one <c>[[device]]</c>.</summary>
internal static class DeviceReader
{
    // Modbus over Serial Line V1.02, 2.2: 1 to 247 address a device, 0 is broadcast, 248 to 255 are reserved.
    private const int LeastAddress = 1;
    private const int MostAddress = 247;

    private static readonly NumberRange Timeouts = new(5, 5000);

    public static DeviceDescription Read(Section section, UniqueNames links, UniqueNames names, UniqueNames addresses)
    {
        string? name = section.Id("name");
        names.Take(section, "name", name);
        string? link = section.Id("link");
        links.Expect(section, "link", link);
        int? address = section.Whole("address", LeastAddress, MostAddress);
        addresses.Take(section, "address", link is null || address is null ? null : string.Create(CultureInfo.InvariantCulture, $"{link} {address}"));
        double? timeout = section.Number("timeout_ms", Timeouts);
        WatchdogDescription? watchdog = WatchdogReader.Read(section.Table("watchdog", required: false));
        section.Close();
        return new DeviceDescription
        {
            Name = name ?? "",
            Link = link ?? "",
            Address = address ?? 0,
            TimeoutMs = timeout ?? 0,
            Watchdog = watchdog,
        };
    }
}

using System.Globalization;
using Bench.Model.Configuration;

namespace Bench.Model.Profiles;

/// <summary>Reads the <c>[[port]]</c> tables.</summary>
internal static class PortReader
{
    private const int LeastPorts = 2;

    /// <summary>All ports in order of count.</summary>
    /// <param name="document">The profile.</param>
    /// <param name="counts">Size of the ring; null when it could not be read.</param>
    public static IReadOnlyList<Port> ReadAll(Section document, int? counts)
    {
        UniqueNames names = new("port name");
        UniqueNames places = new("count of a port");
        List<Port> ports = [];
        foreach (Section section in document.Tables("port", LeastPorts))
        {
            string? name = section.Text("name");
            names.Take(section, "name", name);
            int? count = section.Whole("count", 0, (counts ?? Rings.Ring.MostCounts) - 1);
            places.Take(section, "count", count?.ToString(CultureInfo.InvariantCulture));
            section.Close();
            ports.Add(new Port(name ?? "", count ?? 0));
        }

        return [.. ports.OrderBy(port => port.Count)];
    }
}

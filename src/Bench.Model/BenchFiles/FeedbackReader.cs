using Bench.Model.Configuration;
using Bench.Model.Profiles;
using Bench.Model.Rings;

namespace Bench.Model.BenchFiles;

/// <summary>Reads what a position says of the unit's feedback: <c>count</c>, <c>counter</c>, <c>[[position.switch]]</c>.</summary>
internal static class FeedbackReader
{
    private const int LeastBits = 8;
    private const int RegisterBits = 16;
    private const int MostCountsPerRevolution = 1 << 24;

    public static Channel? Count(Section section, KnownDevices devices, FeedbackKind? kind)
    {
        if (kind != FeedbackKind.Switches)
        {
            return ChannelReader.Count(section.Table("count"), devices);
        }

        Refuse(section, "count", "port switches give no count; remove it");
        return null;
    }

    public static CounterDescription? Counter(Section position, FeedbackKind? kind, Channel? count)
    {
        if (kind != FeedbackKind.Incremental)
        {
            Refuse(position, "counter", "only for feedback = \"incremental\"; remove it");
            return null;
        }

        if (position.Table("counter") is not Section section)
        {
            return null;
        }

        if (count is { Type: RegisterType.Int16 or RegisterType.Int32 or RegisterType.Float32 })
        {
            position.Table("count")!.Refuse("type", null, "a counter that wraps is read as \"uint16\" or \"uint32\", whatever its sign means");
        }

        int most = count is { Text: null, Type: not RegisterType.Uint32 } ? RegisterBits : CounterDescription.MostBits;
        int? bits = section.Whole("bits", LeastBits, most, required: false);
        int? perRevolution = section.Whole("counts_per_revolution", Ring.LeastCounts, MostCountsPerRevolution);
        bool? reversed = section.Flag("reversed", required: false);
        int? home = section.Whole("home_count", 0, Ring.MostCounts - 1, required: false);
        section.Close();
        return new CounterDescription
        {
            Bits = bits ?? RegisterBits,
            CountsPerRevolution = perRevolution ?? 0,
            Reversed = reversed ?? false,
            HomeCount = home ?? 0,
        };
    }

    public static IReadOnlyList<PortSwitch> Switches(Section position, KnownDevices devices, FeedbackKind? kind)
    {
        if (kind != FeedbackKind.Switches)
        {
            Refuse(position, "switch", "only for feedback = \"switches\"; remove it");
            return [];
        }

        UniqueNames ports = new("port");
        List<PortSwitch> switches = [];
        foreach (Section section in position.Tables("switch", 2))
        {
            string? port = section.Text("port");
            ports.Take(section, "port", port);
            if (ChannelReader.Input(section, devices) is Channel input && port is not null)
            {
                switches.Add(new PortSwitch(port, input));
            }
        }

        return switches;
    }

    private static void Refuse(Section section, string key, string why)
    {
        if (section.Has(key))
        {
            section.Refuse(key, null, why);
        }
    }
}

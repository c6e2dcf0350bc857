using Bench.Model.Configuration;
using Bench.Model.Serialization;

namespace Bench.Model.BenchFiles;

/// <summary>Reads the place of a value: <c>{ device = "io", input_register = 2, bit = 0 }</c>.</summary>
internal static class ChannelReader
{
    private static readonly (string Key, RegisterTable Table)[] Tables =
        [.. Enum.GetValues<RegisterTable>().Select(table => (BenchJson.Word(table).Replace('-', '_'), table))];

    /// <summary>An output: a coil.</summary>
    public static Channel? Output(Section? section, UniqueNames devices) => Whole(section, devices, close: true, RegisterTable.Coil);

    /// <summary>A register read as a number; the section is left open for the keys of a meter.</summary>
    public static Channel? Register(Section? section, UniqueNames devices, bool close) =>
        Whole(section, devices, close, RegisterTable.HoldingRegister, RegisterTable.InputRegister);

    /// <summary>A yes or no: a discrete input or coil, or a bit of a register.</summary>
    public static Channel? Input(Section? section, UniqueNames devices)
    {
        if (section is null)
        {
            return null;
        }

        Channel? place = Place(section, devices, Enum.GetValues<RegisterTable>());
        int? bit = section.Whole("bit", 0, 15, required: false);
        bool inRegister = place?.Table is RegisterTable.HoldingRegister or RegisterTable.InputRegister;
        if (place is not null && inRegister && !section.Has("bit"))
        {
            section.Refuse("bit", null, "a whole number from 0 to 15 is required: which bit of the register");
        }
        else if (place is not null && !inRegister && section.Has("bit"))
        {
            section.Refuse("bit", null, "only a register has bits; remove it");
        }

        bool? activeLow = section.Flag("active_low", required: false);
        section.Close();
        return place is null ? null : place with { Bit = bit, ActiveLow = activeLow ?? false };
    }

    private static Channel? Whole(Section? section, UniqueNames devices, bool close, params RegisterTable[] tables)
    {
        if (section is null)
        {
            return null;
        }

        Channel? place = Place(section, devices, tables);
        if (close)
        {
            section.Close();
        }

        return place;
    }

    private static Channel? Place(Section section, UniqueNames devices, RegisterTable[] tables)
    {
        string? device = section.Id("device");
        devices.Expect(section, "device", device);
        string allowed = string.Join(" or ", Tables.Where(t => tables.Contains(t.Table)).Select(t => t.Key));
        List<(string Key, RegisterTable Table)> named = [.. Tables.Where(t => section.Has(t.Key))];
        if (named is not [(string key, RegisterTable table)])
        {
            section.Refuse("", named.Count == 0 ? "no table" : "more than one table", $"one of {allowed} is required, with its address");
            return null;
        }

        if (!tables.Contains(table))
        {
            section.Refuse(key, key, $"{allowed} is allowed here");
            return null;
        }

        return section.Whole(key, 0, 65535) is int address && device is not null ? new Channel(device, table, address) : null;
    }
}

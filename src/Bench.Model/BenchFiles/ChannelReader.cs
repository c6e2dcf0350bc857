using Bench.Model.Configuration;
using Bench.Model.Serialization;

namespace Bench.Model.BenchFiles;

/// <summary>Reads the place of a value: <c>{ device = "io", input_register = 2, bit = 0 }</c>.</summary>
internal static class ChannelReader
{
    private static readonly (string Key, RegisterTable Table)[] Tables =
    [
        .. Enum.GetValues<RegisterTable>().Where(table => table != RegisterTable.None)
            .Select(table => (BenchJson.Word(table).Replace('-', '_'), table)),
    ];

    private enum Purpose
    {
        Output,
        Input,
        Count,
        Meter,
        Target,
    }

    /// <summary>An output: a coil or a line.</summary>
    public static Channel? Output(Section? section, KnownDevices devices)
    {
        if (section is null)
        {
            return null;
        }

        Channel? place = Place(section, devices, Purpose.Output, [RegisterTable.Coil]);
        section.Close();
        return place;
    }

    /// <summary>A holding register that is written; the section is left open for the keys of a target.</summary>
    public static Channel? Target(Section section, KnownDevices devices) => Place(section, devices, Purpose.Target, [RegisterTable.HoldingRegister]);

    /// <summary>Registers or a line read as a whole number.</summary>
    public static Channel? Count(Section? section, KnownDevices devices)
    {
        if (section is null)
        {
            return null;
        }

        Channel? place = Place(section, devices, Purpose.Count, [RegisterTable.HoldingRegister, RegisterTable.InputRegister]);
        place = place is null ? null : RegisterTypeReader.Read(section, place, maySign: false);
        section.Close();
        return place;
    }

    /// <summary>A number to measure: registers, a SCPI query or a line; the section is left open for the keys of a meter.</summary>
    public static Channel? Measured(Section section, KnownDevices devices) =>
        Place(section, devices, Purpose.Meter, [RegisterTable.HoldingRegister, RegisterTable.InputRegister]) is Channel place
            ? RegisterTypeReader.Read(section, place, maySign: true)
            : null;

    /// <summary>A yes or no: a discrete input or coil, a bit of a register, or a line.</summary>
    public static Channel? Input(Section? section, KnownDevices devices)
    {
        if (section is null)
        {
            return null;
        }

        Channel? place = Place(section, devices, Purpose.Input, [.. Tables.Select(t => t.Table)]);
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

    private static Channel? Place(Section section, KnownDevices devices, Purpose purpose, RegisterTable[] tables)
    {
        string? device = section.Id("device");
        devices.Names.Expect(section, "device", device);
        return devices.ProtocolOf(device) switch
        {
            LinkProtocol.Scpi => Query(section, device!, purpose),
            LinkProtocol.Stream => Field(section, device!, devices.StreamOf(device!), purpose),
            LinkProtocol.Lines => Line(section, device!, devices.LinesOf(device!), purpose),
            _ => Register(section, device, tables),
        };
    }

    private static Channel? Query(Section section, string device, Purpose purpose)
    {
        if (purpose != Purpose.Meter)
        {
            section.Refuse("device", null, "a device that speaks SCPI measures current and voltage only; name another device");
            section.Ignore();
            return null;
        }

        string? query = section.Text("query");
        if (query is not null && !ScpiQuery.IsOne(query))
        {
            section.Refuse("query", null, ScpiQuery.Allowed);
        }

        return query is null ? null : Channel.Asked(device, query);
    }

    private static Channel? Line(Section section, string device, LineSyntax? syntax, Purpose purpose)
    {
        if (purpose == Purpose.Target)
        {
            section.Refuse("device", null, "a target is written to a holding register; name a device that speaks Modbus");
            section.Ignore();
            return null;
        }

        string? channel = section.Text("line");
        if (channel is not null && !LineSyntaxReader.IsWord(channel))
        {
            section.Refuse("line", null, "a channel's name is letters, digits and signs of ASCII without blanks, at most 32");
        }

        (string Key, LineTemplate? Template) needed = purpose switch
        {
            Purpose.Output => ("switch", syntax?.Switch),
            Purpose.Input => ("ask_state", syntax?.AskState),
            _ => ("ask_value", syntax?.AskValue),
        };
        if (syntax is not null && needed.Template is null)
        {
            section.Refuse("device", null, $"this device has no {needed.Key} in its [device.lines]; add it, or name another device");
        }

        return channel is null ? null : Channel.Asked(device, channel);
    }

    private static Channel? Field(Section section, string device, StreamDescription? stream, Purpose purpose)
    {
        if (purpose is Purpose.Output or Purpose.Input or Purpose.Target)
        {
            section.Refuse("device", null, "a stream carries counts and meters only; name another device");
            section.Ignore();
            return null;
        }

        string? name = section.Id("field");
        StreamField? field = stream?.Fields.FirstOrDefault(f => f.Name == name);
        if (name is not null && stream is not null && field is null)
        {
            section.Refuse("field", null, $"its [device.stream] has no such field; {NearestName.Advice(name, [.. stream.Fields.Select(f => f.Name)])}");
        }

        return name is null ? null : Channel.Asked(device, name);
    }

    private static Channel? Register(Section section, string? device, RegisterTable[] tables)
    {
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

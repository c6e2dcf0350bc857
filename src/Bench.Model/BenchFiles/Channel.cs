using System.Text.Json.Serialization;

namespace Bench.Model.BenchFiles;

/// <summary>Where on a device a value lives.</summary>
/// <param name="Device">Name of the device.</param>
/// <param name="Table">Which table; <see cref="RegisterTable.None"/> where the device is asked by text.</param>
/// <param name="Address">Address in the table as sent on the wire, 0 to 65535; 0 where there is no table.</param>
/// <param name="Bit">For a bit within a register, 0 (least) to 15; null for the whole.</param>
/// <param name="ActiveLow">For a bit: true when 0 means yes.</param>
/// <param name="Text">What a device that speaks text is asked for: a SCPI query, the name of a channel that goes into its line templates, or a field of a stream's frames. Null for a table.</param>
public sealed record Channel(
    string Device,
    RegisterTable Table,
    int Address,
    int? Bit = null,
    bool ActiveLow = false,
    [property: JsonIgnore(Condition = JsonIgnoreCondition.WhenWritingNull)] string? Text = null)
{
    /// <summary>For a whole register: what its bits mean.</summary>
    [JsonIgnore(Condition = JsonIgnoreCondition.WhenWritingDefault)]
    public RegisterType Type { get; init; }

    /// <summary>For a value of two registers: which comes first.</summary>
    [JsonIgnore(Condition = JsonIgnoreCondition.WhenWritingDefault)]
    public WordOrder Words { get; init; }

    /// <summary>Addresses it takes in its table: 1 or 2.</summary>
    [JsonIgnore]
    public int Addresses => Type is RegisterType.Uint32 or RegisterType.Int32 or RegisterType.Float32 ? 2 : 1;

    /// <summary>A value asked for by text.</summary>
    public static Channel Asked(string device, string text, bool activeLow = false) =>
        new(device, RegisterTable.None, 0, ActiveLow: activeLow, Text: text);
}

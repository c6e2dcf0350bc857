using System.Globalization;
using Bench.Model.Configuration;
using Bench.Model.Profiles;
using Bench.Model.Serialization;

namespace Bench.Model.BenchFiles;

/// <summary>Reads the <c>[[position]]</c> tables of one file.</summary>
/// <param name="devices">Links and devices.</param>
internal sealed class PositionReader(KnownDevices devices)
{
    // What belongs to one unit alone. Supply voltage and emergency stop may serve several positions.
    private readonly UniqueNames _coils = new("coil");
    private readonly UniqueNames _targets = new("target");
    private readonly UniqueNames _inputs = new("register or input of a unit");

    /// <summary>Names of positions read so far.</summary>
    public UniqueNames Names { get; } = new("position");

    /// <summary>Reads one; null when something required is missing, which is noted then.</summary>
    public UnitPositionDescription? Read(Section section)
    {
        string? name = section.Id("name");
        Names.Take(section, "name", name);
        DriveKind? drive = section.Word<DriveKind>("drive");
        (Channel? up, Channel? down) = DriveReader.Outputs(section, devices, drive);
        TargetDescription? target = DriveReader.Target(section, devices, drive);
        FeedbackKind? feedback = section.Word<FeedbackKind>("feedback");
        Channel? count = FeedbackReader.Count(section, devices, feedback);
        CounterDescription? counter = FeedbackReader.Counter(section, feedback, count);
        IReadOnlyList<PortSwitch> switches = FeedbackReader.Switches(section, devices, feedback);
        Channel? index = ChannelReader.Input(section.Table("index", required: false), devices);
        Channel? emergencyStop = ChannelReader.Input(section.Table("emergency_stop", required: false), devices);
        MeterDescription? current = MeterReader.Read(section.Table("current"), devices, "a");
        MeterDescription? voltage = MeterReader.Read(section.Table("voltage"), devices, "v");
        section.Close();

        Take(_coils, section, drive == DriveKind.Commanded ? "power" : "up", up);
        Take(_coils, section, "down", down);
        Take(_targets, section, "target", target?.Register);
        Take(_inputs, section, "count", count);
        Take(_inputs, section, "index", index);
        foreach (PortSwitch port in switches)
        {
            Take(_inputs, section, "switch", port.Input);
        }

        Take(_inputs, section, "current", current?.Channel);

        return up is null || (drive == DriveKind.Commanded && target is null) || (count is null && switches.Count == 0) || current is null || voltage is null ? null : new UnitPositionDescription
        {
            Name = name ?? "",
            Drive = drive ?? default,
            Up = up,
            Down = down,
            Target = target,
            Feedback = feedback ?? default,
            Count = count,
            Counter = counter,
            Switches = switches,
            Index = index,
            EmergencyStop = emergencyStop,
            Current = current,
            Voltage = voltage,
        };
    }

    private static void Take(UniqueNames taken, Section section, string key, Channel? channel)
    {
        for (int i = 0; i < (channel?.Addresses ?? 0); i++)
        {
            string place = channel!.Text is string text ? $"{(key is "index" or "switch" ? "input " : "")}{text} of {channel.Device}"
                : string.Create(
                    CultureInfo.InvariantCulture,
                    $"{BenchJson.Word(channel.Table)} {channel.Address + i}{(channel.Bit is int bit ? $" bit {bit}" : "")} of {channel.Device}");
            taken.Take(section, key, place, $"{place} again");
        }
    }
}

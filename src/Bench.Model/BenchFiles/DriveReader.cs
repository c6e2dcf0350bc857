using Bench.Model.Configuration;
using Bench.Model.Profiles;

namespace Bench.Model.BenchFiles;

/// <summary>Reads what a position says of the unit's drive: <c>up</c> and <c>down</c>, or <c>power</c> and <c>target</c>.</summary>
internal static class DriveReader
{
    private static readonly NumberRange Scale = new(1e-6, 65536);

    /// <summary>The outputs; of a commanded drive the first feeds the unit.</summary>
    public static (Channel? Up, Channel? Down) Outputs(Section position, KnownDevices devices, DriveKind? drive)
    {
        if (drive == DriveKind.Commanded)
        {
            Refuse(position, "up", "a commanded unit turns itself; give its power, and its target");
            Refuse(position, "down", "a commanded unit turns itself; give its power, and its target");
            return (ChannelReader.Output(position.Table("power"), devices), null);
        }

        Refuse(position, "power", "only for drive = \"commanded\"; remove it");
        Channel? up = ChannelReader.Output(position.Table("up"), devices);
        Channel? down = ChannelReader.Output(position.Table("down", required: drive == DriveKind.Reversing), devices);
        if (drive == DriveKind.Single)
        {
            Refuse(position, "down", "a single drive has one output; remove it, or write drive = \"reversing\"");
        }

        if (up is not null && down is not null && (up.Text is null) != (down.Text is null))
        {
            position.Refuse("down", null, "both outputs are coils or both are lines: give both directions to one kind of board");
        }

        return (up, down);
    }

    /// <summary>The register that takes the target.</summary>
    public static TargetDescription? Target(Section position, KnownDevices devices, DriveKind? drive)
    {
        if (drive != DriveKind.Commanded)
        {
            Refuse(position, "target", "only for drive = \"commanded\"; remove it");
            return null;
        }

        if (position.Table("target") is not Section section)
        {
            return null;
        }

        Channel? register = ChannelReader.Target(section, devices);
        double? scale = section.Number("scale_counts", Scale, required: false);
        section.Close();
        return register is null ? null : new TargetDescription(register, scale ?? 1);
    }

    private static void Refuse(Section section, string key, string why)
    {
        if (section.Has(key))
        {
            section.Refuse(key, null, why);
        }
    }
}

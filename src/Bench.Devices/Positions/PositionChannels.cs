using Bench.Model.BenchFiles;

namespace Bench.Devices.Positions;

/// <summary>What is wired to a position.</summary>
internal static class PositionChannels
{
    /// <summary>Every place it uses.</summary>
    public static IEnumerable<Channel> Of(UnitPositionDescription p) =>
        new[] { p.Up, p.Down, p.Count, p.Current.Channel, p.Voltage.Channel, p.Index, p.EmergencyStop }.OfType<Channel>()
            .Concat(p.Switches.Select(s => s.Input))
            .Concat(Target(p));

    /// <summary>The places of the unit's own feedback.</summary>
    public static IEnumerable<Channel> Feedback(UnitPositionDescription p) =>
        p.Count is Channel count ? [count] : p.Switches.Select(s => s.Input);

    /// <summary>Whether a device is a unit's own feedback and nothing else.</summary>
    public static bool IsFeedback(BenchFile file, string device) =>
        file.Positions.Any(p => Feedback(p).Any(c => c.Device == device))
        && file.Positions.All(p => Of(p).All(c => c.Device != device || Feedback(p).Concat(Target(p)).Any(f => ReferenceEquals(c, f))));

    // Like the feedback, a part of the unit and not of the bench.
    private static IEnumerable<Channel> Target(UnitPositionDescription p) => p.Target is { } target ? [target.Register] : [];

    /// <summary>The first place that a position uses on a device; null when none does.</summary>
    public static Channel? FirstOn(BenchFile file, string device) => file.Positions.SelectMany(Of).FirstOrDefault(c => c.Device == device);
}

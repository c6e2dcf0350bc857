using System.Globalization;
using Bench.Model.Profiles;

namespace Bench.Simulation.Benches;

/// <summary>How one position of a common bench is wired for a unit: the lines of the bench file that depend on its kind.</summary>
/// <param name="Drive">Its drive.</param>
/// <param name="Feedback">Its feedback.</param>
/// <param name="Counts">Counts of its ring.</param>
/// <param name="Ports">Names of its ports; used for port switches only.</param>
internal sealed record StandardWiring(DriveKind Drive, FeedbackKind Feedback, int Counts, IReadOnlyList<string> Ports)
{
    /// <summary>Steps of a counter per count of the ring: four edges a line.</summary>
    private const int StepsPerCount = 4;

    /// <summary>A unit with a ring.</summary>
    public static StandardWiring Of(DriveKind drive) => new(drive, FeedbackKind.Ring, 0, []);

    /// <summary>A unit of a family.</summary>
    public static StandardWiring Of(Profile profile) => new(profile.Drive, profile.Feedback, profile.Ring.Counts, [.. profile.Ports.Select(p => p.Name)]);

    /// <summary>The outputs.</summary>
    /// <param name="board">The board with the relays.</param>
    /// <param name="coil">The first of two coils.</param>
    /// <param name="feedback">The unit's own device.</param>
    public string Outputs(string board, int coil, string feedback) => Drive switch
    {
        DriveKind.Commanded => Text(
            $$"""
            drive = "commanded"
            power = { device = "{{board}}", coil = {{coil}} }
            target = { device = "{{feedback}}", holding_register = 0 }
            """),
        DriveKind.Reversing => Text(
            $$"""
            drive = "reversing"
            up = { device = "{{board}}", coil = {{coil}} }
            down = { device = "{{board}}", coil = {{coil + 1}} }
            """),
        _ => Text(
            $$"""
            drive = "single"
            up = { device = "{{board}}", coil = {{coil}} }
            """),
    };

    /// <summary>The feedback, but for port switches, which are tables of their own.</summary>
    public string Count(string feedback) => Feedback switch
    {
        FeedbackKind.Switches => "feedback = \"switches\"",
        FeedbackKind.Incremental => Text(
            $$"""
            feedback = "incremental"
            count = { device = "{{feedback}}", input_register = 0 }
            counter = { counts_per_revolution = {{StepsPerCount * Counts}} }
            """),
        _ => Text(
            $$"""
            feedback = "ring"
            count = { device = "{{feedback}}", input_register = 0 }
            """),
    };

    /// <summary>The tables of port switches; empty for any other feedback.</summary>
    public string Switches(string feedback) => Feedback != FeedbackKind.Switches ? "" : string.Concat(Ports.Select((port, i) => Text(
        $"""

        [[position.switch]]
        port = "{port}"
        device = "{feedback}"
        discrete_input = {i}

        """)));

    private static string Text(FormattableString text) => text.ToString(CultureInfo.InvariantCulture);
}

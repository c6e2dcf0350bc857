using Bench.Model.BenchFiles;
using Bench.Model.Profiles;

namespace Bench.Cli.Running;

/// <summary>Matches a bench's unit position to a profile.</summary>
internal static class PositionChoice
{
    /// <summary>The position to use.</summary>
    /// <param name="bench">The bench.</param>
    /// <param name="name">Its name; null for the only one.</param>
    /// <param name="profile">The unit's profile.</param>
    /// <param name="where">Where the name was given.</param>
    /// <exception cref="CliException">There is none of that name, or several and none was named, or it does not fit the profile.</exception>
    public static UnitPositionDescription Of(BenchFile bench, string? name, Profile profile, string where = "--position")
    {
        string names = string.Join(", ", bench.Positions.Select(p => p.Name));
        UnitPositionDescription position = name is null
            ? bench.Positions.Count == 1
                ? bench.Positions[0]
                : throw new CliException(ExitCode.BadInput, $"bench '{bench.Name}' has several positions; choose one with --position, or test several with --unit: {names}")
            : bench.Positions.FirstOrDefault(p => p.Name == name)
                ?? throw new CliException(ExitCode.BadInput, $"{where} {name}: bench '{bench.Name}' has no such position; there are: {names}");
        if (profile.Drive == DriveKind.Reversing && position.Drive != DriveKind.Reversing)
        {
            throw new CliException(ExitCode.BadInput, $"{Before(where)}position '{position.Name}' is wired for one direction, but {profile.Family} needs a reversing drive; choose another position or profile");
        }

        if ((profile.Drive == DriveKind.Commanded) != (position.Drive == DriveKind.Commanded))
        {
            throw new CliException(ExitCode.BadInput, $"position '{position.Name}' {(position.Drive == DriveKind.Commanded ? "tells a unit its target" : "drives the motor itself")}, and {profile.Family} needs {(profile.Drive == DriveKind.Commanded ? "to be told" : "to be driven")}; choose another position or profile");
        }

        if (position.Feedback != profile.Feedback)
        {
            throw new CliException(ExitCode.BadInput, $"{Before(where)}position '{position.Name}' reads another kind of feedback than {profile.Family} has; choose another position or profile");
        }

        return position;
    }

    private static string Before(string where) => where == "--position" ? "" : $"{where}: ";
}

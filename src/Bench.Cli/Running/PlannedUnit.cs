using Bench.Model.BenchFiles;
using Bench.Model.Profiles;
using Bench.Model.Returns;

namespace Bench.Cli.Running;

/// <summary>A unit to be tested, checked: it fits its position and profile.</summary>
/// <param name="Return">The unit and its claim.</param>
/// <param name="Position">Where it is mounted.</param>
/// <param name="Profile">The profile of its family.</param>
internal sealed record PlannedUnit(UnitReturn Return, UnitPositionDescription Position, Profile Profile)
{
    /// <summary>What a line about it begins with.</summary>
    public string Name => $"{Position.Name}  {Return.Serial}";
}

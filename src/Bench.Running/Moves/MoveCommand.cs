using Bench.Model.Instruments;
using Bench.Model.Moves;
using Bench.Model.Profiles;

namespace Bench.Running.Moves;

/// <summary>A travel to be made.</summary>
/// <param name="Stage">Stage it belongs to.</param>
/// <param name="Direction">Direction.</param>
/// <param name="From">Port it begins at; null when elsewhere.</param>
/// <param name="To">Port to land at; null to land where <paramref name="Revolutions"/> end.</param>
/// <param name="Revolutions">Whole revolutions to turn besides.</param>
/// <param name="SettleS">Rest before the landing is read, seconds.</param>
/// <param name="Relative">Whether counts are relative, the counter's home being unknown.</param>
/// <param name="MostOnS">Longest time the drive is on, seconds, where that is less than the profile's; null for the profile's.</param>
/// <param name="TravelCounts">Counts to travel, not negative, where there is neither port nor whole revolution to land at; null else.</param>
internal sealed record MoveCommand(
    StageKind Stage, DriveDirection Direction, Port? From, Port? To, int Revolutions, double SettleS, bool Relative = false,
    double? MostOnS = null, int? TravelCounts = null)
{
    /// <summary>Current that it may draw all the time, amperes, where that is more than the family's running current; null for that.</summary>
    public double? CurrentA { get; init; }

    /// <summary>Voltage that the supply was set to, volts, where that is not the family's nominal one; null for nominal.</summary>
    public double? SupplyV { get; init; }
}

using Bench.Model.Profiles;

namespace Bench.Model.Returns;

/// <summary>What an arrival inspection says before any run.</summary>
public static class ArrivalInspection
{
    /// <summary>Why the unit must not be energised, one plain clause; null when the inspection does not forbid it.</summary>
    /// <param name="unit">The return.</param>
    /// <param name="profile">The profile of its family.</param>
    public static string? WhyNotToEnergise(UnitReturn unit, Profile profile)
    {
        ArgumentNullException.ThrowIfNull(unit);
        ArgumentNullException.ThrowIfNull(profile);
        return profile.Inspection.FirstOrDefault(item => unit.Answer(item.Id) is string answer && item.ForbidsEnergising.Contains(answer)) is { } forbids
            ? $"on arrival {forbids.Means} (inspection item {forbids.Id}: {unit.Answer(forbids.Id)}), and such a unit must not be energised"
            : null;
    }
}

using Bench.Model.Instruments;
using Bench.Model.Serialization;

namespace Bench.Running.Exercising;

/// <summary>What in a pulse is not as it should be.</summary>
internal static class PulseRemarks
{
    /// <summary>Counts a unit must turn for its direction to be believed: past rounding and the play of gears.</summary>
    private const int LeastCounts = 3;

    /// <summary>The remarks.</summary>
    /// <param name="pulse">The pulse.</param>
    /// <param name="withUnit">Whether a unit was connected.</param>
    public static IEnumerable<string> Of(OutputPulse pulse, bool withUnit)
    {
        string output = $"output {BenchJson.Word(pulse.Direction)}";
        DriveState expected = pulse.Direction == DriveDirection.Up ? DriveState.Up : DriveState.Down;
        if (pulse.ReadBackOn != expected)
        {
            yield return $"{output}: while on it read back {BenchJson.Word(pulse.ReadBackOn)}: check the coils' addresses in the bench file and the board";
        }

        if (pulse.ReadBackOff != DriveState.Off)
        {
            yield return $"{output}: after switching off it read back {BenchJson.Word(pulse.ReadBackOff)}: check the board";
        }

        if (withUnit && pulse.CurrentOnMs is null)
        {
            yield return $"{output}: no current flowed: check relay contact, fuse, supply and the unit's connector";
        }

        int sign = pulse.Direction == DriveDirection.Up ? 1 : -1;
        if (pulse.CountsTurned is { } turned && turned * sign <= -LeastCounts)
        {
            yield return $"{output}: the unit turned the other way ({turned} counts): the outputs or the motor's leads are exchanged";
        }
        else if (pulse.CurrentOnMs is not null && pulse.CountsTurned is { } still && Math.Abs(still) < LeastCounts)
        {
            yield return $"{output}: current flowed and the count changed by {still} only: a locked unit, or another unit's feedback";
        }
    }
}

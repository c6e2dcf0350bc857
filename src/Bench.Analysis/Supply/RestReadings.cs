using Bench.Model.Instruments;
using Bench.Model.Moves;
using Bench.Model.Traces;

namespace Bench.Analysis.Supply;

/// <summary>What was read with the drive off and the unit at rest.</summary>
/// <param name="CurrentsA">Currents, amperes.</param>
/// <param name="VoltagesV">Voltages, volts.</param>
/// <param name="CountsBeforeMotion">Counts before the drive was first on.</param>
internal sealed record RestReadings(
    IReadOnlyList<double> CurrentsA, IReadOnlyList<double> VoltagesV, IReadOnlyList<int> CountsBeforeMotion)
{
    /// <summary>Time after the drive went off before the unit counts as at rest, seconds. Common practice, no source.</summary>
    private const double RestS = 0.3;

    /// <summary>Gathers them from a trace.</summary>
    public static RestReadings In(ReadOnlySpan<Sample> samples, IReadOnlyList<Move> moves)
    {
        List<double> currents = [];
        List<double> voltages = [];
        List<int> counts = [];
        double firstOn = moves.Count > 0 ? moves[0].DriveOnS : double.PositiveInfinity;
        double lastOn = double.NegativeInfinity;
        foreach (Sample s in samples)
        {
            if (s.Drive != DriveState.Off)
            {
                lastOn = s.TimeS;
            }
            else if (s.TimeS - lastOn >= RestS)
            {
                if (s.HasMeters && double.IsFinite(s.CurrentA) && double.IsFinite(s.VoltageV))
                {
                    currents.Add(s.CurrentA);
                    voltages.Add(s.VoltageV);
                }

                if (s.HasCount && s.TimeS < firstOn)
                {
                    counts.Add(s.Count);
                }
            }
        }

        return new RestReadings(currents, voltages, counts);
    }
}

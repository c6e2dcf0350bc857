namespace Bench.Analysis.Sightings;

/// <summary>
/// Chance that a healthy count is sighted in a pass, min(1, 1/(w D)) by readings taken over counts travelled (C5), and ln of the
/// chance that it is not. Travels are whole counts and mostly few, so that each logarithm is taken once.
/// </summary>
internal sealed class SightingChances
{
    /// <summary>However slow the motion, a healthy sensor is not certain to be seen.</summary>
    public const double MostProbable = 0.98;

    private const int Travels = 128;

    private readonly (double Sighted, double LogMissed)[] _known;

    /// <summary>Begins with none known.</summary>
    /// <param name="mostReadings">Most readings between the two that a travel is taken from.</param>
    public SightingChances(int mostReadings) => _known = new (double, double)[(mostReadings + 1) * Travels];

    /// <summary>The chance, and ln of that of a miss.</summary>
    /// <param name="readings">Readings taken, from 1.</param>
    /// <param name="travelled">Whole counts travelled.</param>
    public (double Sighted, double LogMissed) Of(int readings, double travelled)
    {
        if (!(travelled < Travels))
        {
            return Chance(readings, travelled);
        }

        ref (double Sighted, double LogMissed) known = ref _known[(readings * Travels) + double.ConvertToIntegerNative<int>(travelled)];
        if (known.Sighted == 0)
        {
            known = Chance(readings, travelled);
        }

        return known;
    }

    private static (double Sighted, double LogMissed) Chance(int readings, double travelled)
    {
        double sighted = Math.Min(MostProbable, readings / Math.Max(travelled, 1));
        return (sighted, Math.Log(1 - sighted));
    }
}

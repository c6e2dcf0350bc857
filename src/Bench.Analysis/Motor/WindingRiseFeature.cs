using Bench.Analysis.Extraction;
using Bench.Analysis.Statistics;
using Bench.Analysis.Uncertainty;
using Bench.Model.Features;
using Bench.Model.Profiles;
using Bench.Model.Runs;

namespace Bench.Analysis.Motor;

/// <summary>How much warmer the winding was in the warm stage than in the first moves, by its resistance, where the profile names it.</summary>
/// <remarks>
/// R = (V - K w)/I of each move, medians of both groups. The torque constant and the meters' systematic errors are common to
/// both and fall out of the difference but for its scale; scatter is taken from the moves. Brushes and contacts lie in series,
/// so the winding's own share is taken for all of it: the profile's winding resistance sets the scale.
/// </remarks>
internal static class WindingRiseFeature
{
    private const string Name = "winding.rise_k";

    /// <summary>Fewest moves of each group.</summary>
    private const int LeastMoves = 4;

    /// <summary>Temperature the cold winding is taken to have, degrees Celsius, and how far off that may be. Common practice, no source.</summary>
    private const double RoomCelsius = 23;
    private const double RoomWithinK = 8;

    /// <summary>The feature.</summary>
    public static IEnumerable<Feature> Of(RunSoFar run, Profile profile, BenchSnapshot bench)
    {
        if (!profile.Names(Name))
        {
            return [];
        }

        double leastA = bench.Current.StandardUncertainty;
        double[] cold = Ohms(run.Means.Take(WindingRise.ColdMoves), profile, leastA);
        double[] warm = Ohms(run.Warm, profile, leastA);
        if (cold.Length < LeastMoves || warm.Length < LeastMoves)
        {
            return [Feature.Missing(Name, warm.Length < LeastMoves ? "fewer than 4 moves were made with the winding warm" : "fewer than 4 moves turned steadily at the beginning")];
        }

        double ohm = profile.Electrical.WindingOhm;
        double perOhm = ResistanceMethod.PerOhmK(ohm, RoomCelsius);
        double rise = perOhm * (Robust.Median(warm) - Robust.Median(cold));
        return
        [
            MeasuredFeature.Of(
                Name,
                rise,
                [
                    Scatter("scatter of resistance, cold", cold, perOhm),
                    Scatter("scatter of resistance, warm", warm, perOhm),
                    new Contribution("temperature of the cold winding", EvaluationType.B, ErrorDistribution.Rectangular, RoomWithinK / Math.Sqrt(3)) { Unit = "K", Sensitivity = rise / (235 + RoomCelsius) },
                ],
                warm.Length),
        ];
    }

    private static double[] Ohms(IEnumerable<SteadyMeans> means, Profile profile, double leastA)
    {
        double backEmf = profile.Electrical.TorqueConstantNmPerA * 2 * Math.PI * profile.Electrical.GearRatio / profile.Ring.Counts;
        return [.. means.Where(m => m.CurrentA > leastA).Select(m => (m.VoltageV - (backEmf * m.SpeedCountsPerS)) / m.CurrentA)];
    }

    private static Contribution Scatter(string source, double[] ohms, double perOhm) =>
        new(source, EvaluationType.A, ErrorDistribution.Normal, Robust.Deviation(ohms) * Math.Sqrt(Math.PI / 2 / ohms.Length)) { Unit = "Ω", Sensitivity = perOhm, DegreesOfFreedom = ohms.Length - 1 };
}

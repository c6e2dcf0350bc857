using Bench.Analysis.Statistics;

namespace Bench.Analysis.Motor;

/// <summary>Constants of a permanent-magnet DC motor from steady states, by least squares (C9).</summary>
/// <param name="ResistanceOhm">R of V = I R + K ω: winding, brushes and contacts, ohms.</param>
/// <param name="BackEmf">K of V = I R + K ω, V·s/rad; in SI units also the torque constant, N·m/A.</param>
/// <param name="FrictionNm">Torque K I at the mean speed of the points that turned, at the motor's shaft, N·m; null when none turned.</param>
/// <param name="Condition">Condition number of current and speed as regressors, see <see cref="LinearFit.Condition"/>.</param>
public sealed record MotorConstants(Estimate ResistanceOhm, Estimate BackEmf, Estimate? FrictionNm, double Condition)
{
    /// <summary>Above this condition number two regressors are called collinear (Belsley, Kuh and Welsch 1980).</summary>
    public const double MostCondition = 30;

    /// <summary>Least points for two coefficients: two degrees of freedom, so that an interval means something.</summary>
    public const int LeastPoints = 4;

    /// <summary>
    /// The constants, or why there are none: R and K can be told apart only by states in which current and speed stand in
    /// different proportions, for instance turning and held still, or two loads.
    /// </summary>
    /// <param name="points">Steady states, all finite.</param>
    /// <param name="confidence">Confidence of the intervals, inside (0, 1).</param>
    public static (MotorConstants? Constants, string? Because) Fit(IReadOnlyList<SteadyPoint> points, double confidence = 0.95)
    {
        ArgumentNullException.ThrowIfNull(points);
        if (points.Count < LeastPoints)
        {
            return (null, $"there are {points.Count} steady states; at least {LeastPoints} are needed");
        }

        LinearFit? fit = LinearFit.Of(
            [[.. points.Select(p => p.CurrentA)], [.. points.Select(p => p.SpeedRadPerS)]],
            [.. points.Select(p => p.VoltageV)]);
        if (fit is null || fit.Condition > MostCondition)
        {
            return (null, "current and speed stood in one proportion throughout, so that resistance and back-EMF can't be told apart; a move at another load or held still would");
        }

        Estimate back = At(fit, 1, confidence);
        return (new MotorConstants(At(fit, 0, confidence), back, Friction(points, back, confidence), fit.Condition), null);
    }

    // Current at the mean speed: the intercept of a line about it, so that points at several speeds scatter only about their course.
    private static Estimate? Friction(IReadOnlyList<SteadyPoint> points, Estimate back, double confidence)
    {
        SteadyPoint[] turned = [.. points.Where(p => p.SpeedRadPerS > 0)];
        if (turned.Length < LeastPoints)
        {
            return null;
        }

        double mean = Describe.Mean([.. turned.Select(p => p.SpeedRadPerS)]);
        double[] ones = [.. turned.Select(_ => 1.0)];
        double[] speeds = [.. turned.Select(p => p.SpeedRadPerS - mean)];
        double[] currents = [.. turned.Select(p => p.CurrentA)];
        if ((LinearFit.Of([ones, speeds], currents) ?? LinearFit.Of([ones], currents)) is not { } fit)
        {
            return null;
        }

        Estimate current = At(fit, 0, confidence);
        return new Estimate(
            back.Value * current.Value,
            Together(back.Value * current.StandardError, current.Value * back.StandardError),
            Together(back.Value * current.HalfWidth, current.Value * back.HalfWidth));
    }

    private static Estimate At(LinearFit fit, int coefficient, double confidence) =>
        new(fit.Coefficients[coefficient], fit.StandardErrors[coefficient], fit.HalfWidth(coefficient, confidence));

    private static double Together(double a, double b) => Math.Sqrt((a * a) + (b * b));
}

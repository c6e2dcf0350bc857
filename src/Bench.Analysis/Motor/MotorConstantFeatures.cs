using Bench.Analysis.Extraction;
using Bench.Analysis.Motion;
using Bench.Analysis.Uncertainty;
using Bench.Model.Features;
using Bench.Model.Profiles;
using Bench.Model.Runs;

namespace Bench.Analysis.Motor;

/// <summary>Resistance, back-EMF constant and friction fitted together, where the profile names them (C9).</summary>
internal static class MotorConstantFeatures
{
    private const string Resistance = "motor.resistance_ohm";
    private const string BackEmf = "motor.back_emf_v_s_per_rad";
    private const string Friction = "motor.friction_nm";

    /// <summary>Half of what a winding warms by in a run, kelvins. Common practice, no source.</summary>
    private const double WarmWithinK = 20;
    private const double ColdCelsius = 20;

    /// <summary>The features.</summary>
    public static IEnumerable<Feature> Of(RunSoFar run, Profile profile, BenchSnapshot bench)
    {
        if (!profile.Names(Resistance) && !profile.Names(BackEmf) && !profile.Names(Friction))
        {
            return [];
        }

        List<SteadyPoint> points = Points(run, profile);
        Feature[] told = [.. Told(points, bench, [])];
        return told.Where(f => profile.Names(f.Name));
    }

    /// <summary>
    /// The winding's resistance from steady states at several supply voltages, under another name; null where there are none, or
    /// they leave resistance and back-EMF in one proportion.
    /// </summary>
    /// <param name="run">The run.</param>
    /// <param name="profile">Its profile.</param>
    /// <param name="bench">The bench.</param>
    /// <param name="name">Name of the feature.</param>
    public static Feature? ResistanceAtSeveralVoltages(RunSoFar run, Profile profile, BenchSnapshot bench, string name) =>
        run.OtherSupply.Count == 0 ? null
        : Told(Points(run, profile), bench, [Warmth(profile.Electrical.WindingOhm)]).First(f => f.Name == Resistance) is { Value: not null } fitted ? fitted with { Name = name }
        : null;

    // By then a sound winding has warmed by something between nothing and 40 K. Limits leave room for a warm one, not for how warm.
    private static Contribution Warmth(double windingOhm) => new(
        "warmth of the winding", EvaluationType.B, ErrorDistribution.Rectangular, WarmWithinK / Math.Sqrt(3))
    { Unit = "K", Sensitivity = 1 / ResistanceMethod.PerOhmK(windingOhm, ColdCelsius) };

    private static IEnumerable<Feature> Told(List<SteadyPoint> points, BenchSnapshot bench, Contribution[] ofResistance)
    {
        (MotorConstants? fit, string? because) = MotorConstants.Fit(points);
        if (fit is null)
        {
            return [.. new[] { Resistance, BackEmf, Friction }.Select(n => Feature.Missing(n, because!))];
        }

        // What the meters' own uncertainty does to the fit: all voltages, then all currents, moved by it (GUM 5.1.3, note 2).
        MotorConstants volts = Moved(points, bench.Voltage.StandardUncertainty, 0) ?? fit;
        MotorConstants amperes = Moved(points, 0, bench.Current.StandardUncertainty) ?? fit;
        Feature Told(string name, Func<MotorConstants, Estimate?> of) => of(fit) is { } value
            ? MeasuredFeature.Of(
                name,
                value.Value,
                [
                    new Contribution("scatter of the points about the fit", EvaluationType.A, ErrorDistribution.Normal, value.StandardError) { DegreesOfFreedom = points.Count - 2 },
                    new Contribution("voltage meter, through the fit", EvaluationType.B, ErrorDistribution.Normal, Math.Abs(of(volts)!.Value.Value - value.Value)),
                    new Contribution("current meter, through the fit", EvaluationType.B, ErrorDistribution.Normal, Math.Abs(of(amperes)!.Value.Value - value.Value)),
                    .. name == Resistance ? ofResistance : [],
                ],
                points.Count)
            : Feature.Missing(name, $"fewer than {MotorConstants.LeastPoints} moves turned steadily");
        return [Told(Resistance, m => m.ResistanceOhm), Told(BackEmf, m => m.BackEmf), Told(Friction, m => m.FrictionNm)];
    }

    // Means of the moves that turned, at whatever supply, and those held still at stall current.
    private static List<SteadyPoint> Points(RunSoFar run, Profile profile)
    {
        double radians = 2 * Math.PI * profile.Electrical.GearRatio / profile.Ring.Counts;
        List<SteadyPoint> points = [.. run.Means.Concat(run.OtherSupply).Select(m => new SteadyPoint(m.VoltageV, m.CurrentA, m.SpeedCountsPerS * radians))];
        foreach (StillMove still in run.Still)
        {
            if (still is { Kind: StillKind.Locked, CurrentA: double i, VoltageV: double v })
            {
                points.Add(new SteadyPoint(v, i, 0));
            }
        }

        return points;
    }

    private static MotorConstants? Moved(List<SteadyPoint> points, double volts, double amperes) =>
        MotorConstants.Fit(points.ConvertAll(p => p with { VoltageV = p.VoltageV + volts, CurrentA = p.CurrentA + amperes })).Constants;
}

using Bench.Analysis.Extraction;
using Bench.Analysis.Motion;
using Bench.Analysis.Statistics;
using Bench.Analysis.Uncertainty;
using Bench.Model.Features;
using Bench.Model.Profiles;
using Bench.Model.Runs;

namespace Bench.Analysis.Motor;

/// <summary>Resistance, speed and energy (C9 in part, C10).</summary>
internal static class MotorFeatures
{
    /// <summary>Standard uncertainty of the torque constant, relative: half of a tolerance of 2 % between motors of one type. Common practice, no source.</summary>
    public const double TorqueConstantUncertainty = 0.01;

    /// <summary>Standard uncertainty of a move's speed, relative: one count over a hundred or more.</summary>
    private const double SpeedUncertainty = 0.003;

    private const string NeverTurned = "the unit never turned steadily";

    /// <summary>The features.</summary>
    public static IEnumerable<Feature> Of(RunSoFar run, Profile profile, BenchSnapshot bench)
    {
        Feature one = Resistance(run, profile, bench);

        // A second voltage makes the type's torque constant needless (C9): whichever is known better.
        yield return MotorConstantFeatures.ResistanceAtSeveralVoltages(run, profile, bench, one.Name) is { } several
            && (one.StandardUncertainty is not double u || several.StandardUncertainty < u) ? several : one;
        yield return Speed(run, profile.Electrical, bench);
        yield return Energy(run, profile, bench);
    }

    // Turning: R = (V - Ke w)/I. Held still: R = V/I, which needs no Ke and is taken where the unit stalled.
    private static Feature Resistance(RunSoFar run, Profile profile, BenchSnapshot bench)
    {
        double ui = bench.Current.StandardUncertainty;
        StillMove[] locked = [.. run.Still.Where(s => s.Kind == StillKind.Locked && s.CurrentA > ui && s.VoltageV is not null)];
        if (locked.Length > 0)
        {
            double current = Robust.Median([.. locked.Select(s => s.CurrentA!.Value)]);
            double voltage = Robust.Median([.. locked.Select(s => s.VoltageV!.Value)]);
            return Resistance(voltage, current, [], bench, locked.Length);
        }

        SteadyMeans[] turned = [.. run.Means.Where(m => m.CurrentA > ui)];
        if (turned.Length == 0)
        {
            return Feature.Missing("winding.resistance_ohm", "the unit neither turned steadily nor stalled");
        }

        double backEmf = profile.Electrical.TorqueConstantNmPerA * 2 * Math.PI * profile.Electrical.GearRatio / profile.Ring.Counts;
        double ohm = Robust.Median([.. turned.Select(m => (m.VoltageV - (backEmf * m.SpeedCountsPerS)) / m.CurrentA)]);
        double typical = Robust.Median([.. turned.Select(m => m.CurrentA)]);
        double emf = backEmf * Robust.Median([.. turned.Select(m => m.SpeedCountsPerS)]);
        double perVolt = -1 / typical;
        Contribution[] backEmfBudget =
        [
            new("torque constant of the type", EvaluationType.B, ErrorDistribution.Normal, emf * TorqueConstantUncertainty) { Unit = "V", Sensitivity = perVolt },
            new("speed of a move", EvaluationType.B, ErrorDistribution.Rectangular, emf * SpeedUncertainty) { Unit = "V", Sensitivity = perVolt },
        ];
        return Resistance(ohm * typical, typical, backEmfBudget, bench, turned.Length);
    }

    private static Feature Resistance(double volts, double amperes, Contribution[] backEmf, BenchSnapshot bench, int n)
    {
        double ohm = volts / amperes;
        return MeasuredFeature.Of(
            "winding.resistance_ohm",
            ohm,
            [
                Contributions.Of(bench.Voltage, "voltage meter", "V", 1 / amperes),
                Contributions.Of(bench.Current, "current meter", "A", -ohm / amperes),
                .. backEmf,
            ],
            n);
    }

    // Carried to nominal supply by the steady-state motor: speed is proportional to V - I R.
    private static Feature Speed(RunSoFar run, ElectricalData nominal, BenchSnapshot bench)
    {
        List<double> speeds = [];
        foreach (MoveFeatures m in run.Features)
        {
            if (m.SpeedCountsPerS is double w && m.LoadedVoltageV is double v && m.RunningCurrentA is double i)
            {
                double drop = i * nominal.WindingOhm;
                if (v > drop && nominal.SupplyNominalV > drop)
                {
                    speeds.Add(Math.Abs(w) * (nominal.SupplyNominalV - drop) / (v - drop));
                }
            }
        }

        if (speeds.Count == 0)
        {
            return Feature.Missing("speed.running_counts_per_s", NeverTurned);
        }

        (double median, Contribution scatter) = Contributions.Median([.. speeds], "scatter from move to move", 0, "none");
        return MeasuredFeature.Of(
            "speed.running_counts_per_s",
            median,
            [
                scatter,
                Contributions.Of(bench.Voltage, "voltage meter", "V", median / nominal.SupplyNominalV),
                new Contribution("resolution of the count over a move", EvaluationType.B, ErrorDistribution.Rectangular, median * SpeedUncertainty),
            ],
            speeds.Count);
    }

    private static Feature Energy(RunSoFar run, Profile profile, BenchSnapshot bench)
    {
        double joules = 0, revolutions = 0, seconds = 0;
        int n = 0;
        for (int i = 0; i < run.Moves.Count; i++)
        {
            // By switches the way from somewhere between two ports is not known.
            bool knowsWay = profile.Feedback != FeedbackKind.Switches || run.Moves[i].FromPort is not null;
            if (run.Features[i].EnergyJ is double e && run.Moves[i].End == Model.Moves.MoveEnd.Landed && knowsWay)
            {
                joules += e;
                revolutions += Math.Abs(run.Moves[i].TravelCounts) / (double)profile.Ring.Counts;
                seconds += run.Features[i].OnS;
                n++;
            }
        }

        if (revolutions <= 0 || joules <= 0)
        {
            return Feature.Missing("energy.per_revolution_j", "no move landed");
        }

        // Meter: the current's offset over all the time, and the voltage's relative uncertainty; sampling: one sample in each move.
        double each = joules / revolutions;
        return MeasuredFeature.Of(
            "energy.per_revolution_j",
            each,
            [
                Contributions.Of(bench.Current, "current meter", "A", profile.Electrical.SupplyNominalV * seconds / revolutions),
                Contributions.Of(bench.Voltage, "voltage meter", "V", each / profile.Electrical.SupplyNominalV),
                new Contribution("sampling of begin and end of moves", EvaluationType.B, ErrorDistribution.Rectangular, 0.02 * each / Math.Sqrt(n)),
            ],
            n);
    }
}

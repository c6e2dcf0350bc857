using Bench.Analysis.Currents;
using Bench.Analysis.Extraction;
using Bench.Analysis.Statistics;
using Bench.Analysis.Uncertainty;
using Bench.Model.Features;
using Bench.Model.Profiles;
using Bench.Model.Rings;
using Bench.Model.Runs;

namespace Bench.Analysis.Trends;

/// <summary>Drift and step of landings and of running current over a run, where the profile names them (C4).</summary>
internal static class CourseFeatures
{
    /// <summary>Resolution of a landing: two readings of one count, rectangular (C3).</summary>
    private const double LandingResolution = 0.408248290463863;

    private const string SeatDrift = "seat.drift_counts_per_100_moves";
    private const string SeatStep = "seat.step_counts";

    /// <summary>Resolution of a seat's middle: the count's, rectangular.</summary>
    private const double SeatResolution = 0.2886751345948129;

    /// <summary>Whether a profile asks for the seats' course.</summary>
    public static bool AsksForSeats(Profile profile) => profile.Names(SeatDrift) || profile.Names(SeatStep);

    /// <summary>The features.</summary>
    public static IEnumerable<Feature> Of(RunSoFar run, Profile profile, BenchSnapshot bench)
    {
        (string Drift, string Step) landing = ("landing.drift_counts_per_100_moves", "landing.step_counts");
        (string Drift, string Step) seat = (SeatDrift, SeatStep);
        (string Drift, string Step) current = ("current.drift_a_per_100_moves", "current.step_a");
        return
        [
            .. Of(profile, seat, () => Seats(run, profile)),
            .. Of(profile, landing, () => RunCourse.Of(Landings(run), LandingResolution)),
            .. Of(profile, current, () => RunCourse.Of(Currents(run, profile.Ring), Math.Max(bench.Current.Scale / Math.Sqrt(12), 1e-9))),
        ];
    }

    // A port's seat lies where it was made, and is met from either side with another lag.
    private static (RunCourse?, string?) Seats(RunSoFar run, Profile profile)
    {
        double[] speeds = [.. run.Each(m => m.SpeedCountsPerS).Select(Math.Abs)];
        double least = speeds.Length > 0 ? SeatPass.LeastRateHz(Robust.Median(speeds)) : 0;
        return speeds.Length == 0 ? (null, "the unit never turned steadily under a count")
            : !SeatPass.Apart(profile) ? (null, "the ports lie too close for the current between them to be a floor")
            : !(run.MeterRateHz >= least) ? (null, FormattableString.Invariant($"current was sampled {run.MeterRateHz ?? 0:0} times a second; a seat's bump needs {least:0}"))
            : RunCourse.Of([.. run.Seats.Select(s => new CoursePoint($"{s.Port} {s.Direction}", s.Move, s.OffCounts))], SeatResolution, "passes of a seat");
    }

    private static List<Feature> Of(Profile profile, (string Drift, string Step) names, Func<(RunCourse?, string?)> course)
    {
        bool drift = profile.Names(names.Drift), step = profile.Names(names.Step);
        if (!drift && !step)
        {
            return [];
        }

        (RunCourse? found, string? because) = course();
        List<Feature> features = [];
        if (drift)
        {
            features.Add(found is null ? Feature.Missing(names.Drift, because!) : Drift(names.Drift, found));
        }

        if (step)
        {
            features.Add(found is null ? Feature.Missing(names.Step, because!) : Step(names.Step, found));
        }

        return features;
    }

    private static Feature Drift(string name, RunCourse course) => course switch
    {
        { Slope: double slope } => MeasuredFeature.Of(name, 100 * Math.Abs(slope), [Scatter("interval of the slope", 100 * course.SlopeUncertainty) with { FallsAsPower = TheilSen.FallsAsPower }], course.Points),
        { Kind: CourseKind.Excursion } => Feature.Missing(name, $"it left its level from move {course.FirstMove} to {course.LastMove} and came back; a slope through that would be no drift"),
        _ => Feature.Missing(name, $"it stepped at move {course.FirstMove}; a slope through a step would be no drift"),
    };

    private static Feature Step(string name, RunCourse course) => course.Step is double step
        ? MeasuredFeature.Of(name, Math.Abs(step), [Scatter("scatter about the course", course.StepUncertainty)], course.Points)
        : Feature.Missing(name, "it drifts over the whole run; a step through a drift would be none");

    private static Contribution Scatter(string source, double u) => new(source, EvaluationType.A, ErrorDistribution.Normal, u);

    // A landing's error depends on the port's seat and the side it is reached from.
    private static List<CoursePoint> Landings(RunSoFar run) =>
        [.. run.Features.Where(m => m.ToPort is not null && m.UnitErrorCounts is not null)
            .Select(m => new CoursePoint($"{m.ToPort} {m.Direction}", m.Number, m.UnitErrorCounts!.Value))];

    // Running current depends on which seats lie on the way: travels to one port, alike to a twelfth of the ring.
    private static List<CoursePoint> Currents(RunSoFar run, Ring ring) =>
        [.. run.Moves.Zip(run.Features).Where(p => p.Second.RunningCurrentA is not null)
            .Select(p => new CoursePoint(
                $"{p.First.ToPort} {Math.Round(12.0 * p.First.TravelCounts / ring.Counts)}", p.First.Number, p.Second.RunningCurrentA!.Value))];
}

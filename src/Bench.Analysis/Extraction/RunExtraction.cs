using Bench.Analysis.Currents;
using Bench.Analysis.Feedback;
using Bench.Analysis.Motion;
using Bench.Analysis.Motor;
using Bench.Analysis.Positioning;
using Bench.Analysis.Readings;
using Bench.Analysis.Sequential;
using Bench.Analysis.ShaftIndex;
using Bench.Analysis.Sightings;
using Bench.Analysis.Supply;
using Bench.Analysis.Switches;
using Bench.Analysis.Trends;
using Bench.Model.Features;
using Bench.Model.Instruments;
using Bench.Model.Moves;
using Bench.Model.Profiles;
using Bench.Model.Runs;
using Bench.Model.Traces;

namespace Bench.Analysis.Extraction;

/// <summary>
/// Traces to features, move by move as a run goes on. The same moves and trace give the same features, whether live or
/// from a stored run. Pure: no clock, no I/O.
/// </summary>
public sealed class RunExtraction
{
    private readonly Profile _profile;
    private readonly BenchSnapshot _bench;
    private readonly RingSightings _ring;
    private readonly SwitchSightings? _switches;
    private readonly AngleCurrents _angles;
    private readonly SequentialTest _test;
    private readonly RunSoFar _run = new();
    private double? _lastIndex;
    private IndexHome? _home;
    private int _stillInARow;
    private bool _landedWrong;
    private int _witnessed;
    private readonly SamplesAside _aside = new();
    private MoveFeatures? _uncoupledMove;
    private IEnumerable<Feature> _uncoupled = UncoupledMove.None;

    /// <summary>Begins a run.</summary>
    /// <param name="profile">The profile the run is under.</param>
    /// <param name="bench">The bench it is on.</param>
    public RunExtraction(Profile profile, BenchSnapshot bench)
    {
        ArgumentNullException.ThrowIfNull(profile);
        ArgumentNullException.ThrowIfNull(bench);
        _profile = profile;
        _bench = bench;
        _ring = new RingSightings(profile.Ring);
        _switches = profile.Feedback == FeedbackKind.Switches ? new SwitchSightings(profile) : null;
        _angles = new AngleCurrents(profile.Ring);
        _test = new SequentialTest(profile.Demonstration);
    }

    /// <summary>How far the evidence is.</summary>
    public EvidenceState Evidence => StoppingRule.State(
        _profile.Demonstration,
        _test,
        _switches?.Coverage ?? RingVerdict.Coverage(_ring, _profile.Demonstration),
        () => _switches?.RevolutionsToGo ?? RingVerdict.RevolutionsToGo(_ring, _profile.Demonstration),
        _stillInARow,
        _landedWrong,
        _witnessed);

    /// <summary>Adds a move that has ended and settled; moves are added in order.</summary>
    /// <param name="trace">The run's trace, holding the move's samples.</param>
    /// <param name="move">The move.</param>
    /// <exception cref="ArgumentException">The move's samples do not lie in the trace.</exception>
    public MoveFeatures AddMove(Trace trace, Move move)
    {
        ArgumentNullException.ThrowIfNull(trace);
        ArgumentNullException.ThrowIfNull(move);
        if (move.FirstSample < 0 || move.SampleCount < 0 || move.FirstSample + move.SampleCount > trace.Count)
        {
            throw new ArgumentException(
                $"move {move.Number} names samples {move.FirstSample} to {move.FirstSample + move.SampleCount}; the trace holds {trace.Count}",
                nameof(move));
        }

        if (move.Stage == StageKind.Uncoupled)
        {
            return AddUncoupled(trace.Slice(move.FirstSample, move.SampleCount), move);
        }

        MoveExtraction extraction = new(trace.Slice(move.FirstSample, move.SampleCount), move, _profile);

        // Where counts are relative they are no places on the ring.
        List<IndexPass> passes = move.Relative ? [] : extraction.Passes.ConvertAll(Unwrapped);
        MoveFeatures features = extraction.Features(_profile, [.. passes.Select(p => p.Middle)]);
        _witnessed += extraction.Lost.Witnessed;
        if (move.Relative)
        {
            _home = IndexHome.Of(trace.Slice(move.FirstSample, move.SampleCount), move, _profile) ?? _home;
        }
        else
        {
            _ring.Add(extraction.Course);
            _angles.Add(extraction.Course, extraction.SteadyRows);
        }

        if (extraction.Switches is { } closings)
        {
            _switches?.Add(closings);
        }

        _run.Add(move, features, extraction, passes);
        _run.Intervals.Add(trace.Slice(move.FirstSample, move.SampleCount), move.DriveOnS, move.DriveOffS);
        if (features.Counts)
        {
            _test.Add(features.Passed);
            _landedWrong |= !features.Passed && move.End == MoveEnd.Landed
                && features is { FeedbackDropouts: 0, CurrentInterruptions: 0 };
        }

        bool still = move.End is MoveEnd.Stalled or MoveEnd.NoCurrent or MoveEnd.CountStill or MoveEnd.FeedbackLost;
        _stillInARow = still ? _stillInARow + 1 : 0;
        return features;
    }

    private MoveFeatures AddUncoupled(ReadOnlySpan<Sample> slice, Move move)
    {
        _aside.Add(move.FirstSample, move.SampleCount);
        _uncoupled = [.. UncoupledMove.Of(slice, move, _profile, _bench.Current.StandardUncertainty)];
        return _uncoupledMove = UncoupledMove.Features(slice, move);
    }

    /// <summary>The features of the run after its last move.</summary>
    /// <param name="trace">The whole trace.</param>
    /// <param name="links">Exchanges with each device over the run.</param>
    /// <param name="today">The day of the run, against which calibration is held.</param>
    /// <param name="instants">How well the instants of the readings are known; null when that was not kept.</param>
    /// <param name="trial">What reseating the feedback's connector showed; null when none was reseated.</param>
    public RunFeatures Complete(
        Trace trace, IReadOnlyList<LinkCounts> links, DateOnly today, InstantHalfWidths? instants = null, FeedbackTrial? trial = null)
    {
        ArgumentNullException.ThrowIfNull(trace);
        ArgumentNullException.ThrowIfNull(links);
        LinkCondition link = LinkCondition.Of(links, _profile, _bench, trial?.Doubt);
        RingMap ring = _switches?.Map() ?? RingVerdict.Map(_ring, _profile.Demonstration);
        ReadOnlySpan<Sample> samples = _aside.Rest(trace);
        RestReadings rest = RestReadings.In(samples, _run.Moves);
        DemonstrationResult demonstration = _test.Result();
        List<Feature> features =
        [
            .. SupplyFeatures.Of(_run, rest, _bench, today),
            .. FeedbackFeatures.Of(LostReadings.In(samples, trial?.FromS), rest, link, _profile.Ring),
            .. MotionFeatures.Of(_run, _bench),
            .. _uncoupled,
            .. PositioningFeatures.Of(_run, _profile),
            .. IndexFeatures.Of(_run.Passes, _profile, _bench),
            IndexHome.Feature(_home, _profile, _bench.HasIndex),
            .. RingFeatures.Of(ring, _run),
            .. CurrentFeatures.Of(_run, rest, _angles, _profile, _bench),
            .. MotorFeatures.Of(_run, _profile, _bench),
            .. MotorConstantFeatures.Of(_run, _profile, _bench),
            .. CourseFeatures.Of(_run, _profile, _bench),
            link.Because is string because
                ? Feature.Missing("demonstration.failed_moves", because)
                : Feature.Of("demonstration.failed_moves", demonstration.Failed, 0, demonstration.Moves),
        ];
        features = _switches is null
            ? [.. features, .. SwitchFeatures.None]
            : [.. WithoutCount.Answer(features), .. SwitchFeatures.Of(_switches, samples, _profile)];
        return new RunFeatures
        {
            Features = [.. features.OrderBy(f => Place(f.Name))],
            Moves = _uncoupledMove is null ? [.. _run.Features] : [.. _run.Features, _uncoupledMove],
            Ring = ring,
            Current = _angles.Profile(),
            Demonstration = demonstration,
            PositionRateHz = _run.PositionRateHz,
            Sampling = _run.Moves.Count == 0 ? null : _run.Intervals.Times(instants),
            Links = [.. links],
        };
    }

    private static int Place(string feature)
    {
        for (int i = 0; i < FeatureCatalog.All.Count; i++)
        {
            if (FeatureCatalog.All[i].Name == feature)
            {
                return i;
            }
        }

        return FeatureCatalog.All.Count;
    }

    private IndexPass Unwrapped(IndexPass pass)
    {
        double near = _lastIndex ?? _profile.Ring.Place(pass.Middle);
        double middle = near + _profile.Ring.Difference(pass.Middle, near);
        _lastIndex = middle;
        return pass with { Middle = middle };
    }
}

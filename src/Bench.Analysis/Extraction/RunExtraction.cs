using Bench.Analysis.Currents;
using Bench.Analysis.Feedback;
using Bench.Analysis.Motion;
using Bench.Analysis.Motor;
using Bench.Analysis.Positioning;
using Bench.Analysis.Provoking;
using Bench.Analysis.Readings;
using Bench.Analysis.Ripple;
using Bench.Analysis.Sequential;
using Bench.Analysis.ShaftIndex;
using Bench.Analysis.Sightings;
using Bench.Analysis.Supply;
using Bench.Analysis.Switches;
using Bench.Analysis.Trends;
using Bench.Analysis.Uncertainty;
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
    private readonly RunSamples _samples;
    private readonly MoveRoom _room = new();
    private readonly bool _asksForSeats;
    private readonly bool _asksForRipple;
    private EvidenceState? _evidence;
    private readonly ProvokedTests _provoked;
    private readonly List<MoveFeatures> _aside = [];
    private double? _lastIndex;
    private IndexHome? _home;
    private int _stillInARow;
    private bool _landedWrong;
    private int _witnessed;
    private int? _asideFrom;
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
        _samples = new RunSamples(_switches is not null);
        _angles = new AngleCurrents(profile.Ring, profile.Ports[0].Count);
        _test = new SequentialTest(profile.Demonstration);
        _asksForSeats = CourseFeatures.AsksForSeats(profile);
        _asksForRipple = RippleFeatures.AskedFor(profile);
        _provoked = new ProvokedTests(profile);
    }

    /// <summary>How far the evidence is.</summary>
    public EvidenceState Evidence => _evidence ??= StoppingRule.State(
        _profile.Demonstration,
        _test,
        _switches?.Coverage ?? RingVerdict.Coverage(_ring, _profile.Demonstration),
        () => _switches?.RevolutionsToGo ?? RingVerdict.RevolutionsToGo(_ring, _profile.Demonstration),
        _stillInARow,
        _landedWrong,
        _witnessed,
        () => OpenDecision.In(
            [.. Measured(_switches?.Map() ?? RingVerdict.Map(_ring, _profile.Demonstration)).Select(f => GaugeStudies.With(f, _bench))],
            _profile,
            _run.Moves.Count,
            _profile.Demonstration.MostMoves - _test.Moves));

    /// <summary>The test of a stage that provokes, so far.</summary>
    /// <exception cref="ArgumentException">The profile's routine has no such stage.</exception>
    public SequentialTest Provoked(StageKind kind) => _provoked.Of(kind);

    /// <summary>Adds a second in which a person moved the connector, drive off.</summary>
    /// <param name="passed">Whether contact was kept.</param>
    public void AddConnectorSecond(bool passed) => _provoked.AddSecond(passed);

    /// <summary>Keeps when the connector opened while a person moved it.</summary>
    public void KeepDropouts(IReadOnlyList<ConnectorDropout> dropouts) => _provoked.Keep(dropouts);

    /// <summary>
    /// From here on nothing is of the unit as it is used: what is read, and moves of stages that provoke, go into features of
    /// their own only. There is no way back.
    /// </summary>
    /// <param name="firstSample">Index of the first sample of the trace that is none of the unit in use.</param>
    public void SetAside(int firstSample) => _asideFrom ??= firstSample;

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

        ReadOnlySpan<Sample> slice = trace.Slice(move.FirstSample, move.SampleCount);
        if (move.Stage == StageKind.Uncoupled || move.Stage.Provokes())
        {
            SetAside(move.FirstSample);
            TakeUpTo(trace, Math.Min(_asideFrom!.Value, move.FirstSample), move);
            return move.Stage.Provokes() ? AddProvoked(slice, move) : AddUncoupled(slice, move);
        }

        // Samples are counted once, though moves should share some.
        int seen = Math.Clamp(_samples.Count - move.FirstSample, 0, move.SampleCount);
        TakeUpTo(trace, move.FirstSample, move);
        return Add(slice, seen, move);
    }

    /// <summary>
    /// Adds a move without a trace to keep: a run may be longer than memory. A run is added either so or by its trace.
    /// </summary>
    /// <param name="before">Samples since the move before, none of this one's; they and those of moves are all there are.</param>
    /// <param name="samples">The move's; where it says they lie in a trace is left out of account.</param>
    /// <param name="move">The move.</param>
    public MoveFeatures AddMove(ReadOnlySpan<Sample> before, ReadOnlySpan<Sample> samples, Move move)
    {
        ArgumentNullException.ThrowIfNull(move);
        _samples.Add(before, FirstOnS(move));
        return Add(samples, 0, move);
    }

    private MoveFeatures Add(ReadOnlySpan<Sample> slice, int seen, Move move)
    {
        _evidence = null;
        Take(slice, seen, move);
        MoveExtraction extraction = new(slice, _room, move, _profile);

        // Where counts are relative they are no places on the ring.
        List<IndexPass> passes = move.Relative ? [] : extraction.Passes.ConvertAll(Unwrapped);
        MoveFeatures features = extraction.Features(_profile, [.. passes.Select(p => p.Middle)]);
        _witnessed += extraction.Lost.Witnessed;
        if (move.Relative)
        {
            _home = IndexHome.Of(slice, move, _profile) ?? _home;
        }
        else
        {
            _ring.Add(extraction.Course);
            _angles.Add(extraction.Course, extraction.SteadyRows);
            if (_asksForSeats)
            {
                _run.Seats.AddRange(SeatPass.In(extraction.Course, extraction.SteadyRows, _profile));
            }

            if (_asksForRipple && RippleTravel.Of(extraction.Course, extraction.SteadyRows, _profile) is { } travel)
            {
                _run.Ripples.Add(travel);
            }
        }

        if (extraction.Switches is { } closings)
        {
            _switches?.Add(closings);
        }

        _run.Add(move, features, extraction, passes);
        _run.Intervals.Add(extraction.Readings, slice, move.DriveOnS, move.DriveOffS);
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
        _uncoupled = [.. UncoupledMove.Of(slice, move, _profile, _bench.Current)];
        MoveFeatures features = UncoupledMove.Features(slice, move);
        _aside.Add(features);
        return features;
    }

    private MoveFeatures AddProvoked(ReadOnlySpan<Sample> slice, Move move)
    {
        _room.Readings.Begin(slice.Length, move.DriveOnS, move.DriveOffS, _switches is null);
        _room.Readings.Add(slice);
        MoveExtraction extraction = new(slice, _room, move, _profile);
        MoveFeatures features = extraction.Features(_profile, []);
        if (move.Stage == StageKind.Warm && move.ToPort is null)
        {
            // It only heats: the unit is not warm yet.
            features = features with { Counts = false };
        }

        _provoked.Add(move.Stage, features, drewNone: extraction.Still.Kind == StillKind.NoCurrent);
        _run.Provoked.Add((move, extraction.Still));
        if (move.Stage is StageKind.LowSupply or StageKind.HighSupply && extraction.Means is { } means)
        {
            _run.OtherSupply.Add(means);
        }
        else if (move.Stage == StageKind.Warm && move.ToPort is not null && extraction.Means is { } warm)
        {
            _run.Warm.Add(warm);
        }

        // It counts in its stage's test, not in the demonstration.
        features = features with { Counts = false };
        _aside.Add(features);
        return features;
    }

    private void TakeUpTo(Trace trace, int end, Move move)
    {
        int between = Math.Max(0, end - _samples.Count);
        _samples.Add(trace.Slice(end - between, between), FirstOnS(move));
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
        ReadOnlySpan<Sample> samples = trace.All[..(_asideFrom ?? trace.Count)];
        _samples.Add(samples[Math.Min(_samples.Count, samples.Length)..], FirstOnS(null));
        return Complete(trial?.FromS is double fromS ? LostReadings.In(samples, fromS) : _samples.Lost.Total(), links, today, instants, trial);
    }

    /// <summary>The features of a run added without a trace.</summary>
    /// <param name="after">Samples after the last move.</param>
    /// <param name="links">What became of the exchanges with each device.</param>
    /// <param name="today">The date, for calibrations.</param>
    /// <param name="instants">How well the instants of the readings are known; null when that was not kept.</param>
    public RunFeatures Complete(
        ReadOnlySpan<Sample> after, IReadOnlyList<LinkCounts> links, DateOnly today, InstantHalfWidths? instants = null)
    {
        ArgumentNullException.ThrowIfNull(links);
        _samples.Add(after, FirstOnS(null));
        return Complete(_samples.Lost.Total(), links, today, instants, null);
    }

    private RunFeatures Complete(
        LostReadings lost, IReadOnlyList<LinkCounts> links, DateOnly today, InstantHalfWidths? instants, FeedbackTrial? trial)
    {
        LinkCondition link = LinkCondition.Of(links, _profile, _bench, trial?.Doubt);
        RingMap ring = _switches?.Map() ?? RingVerdict.Map(_ring, _profile.Demonstration);
        RestReadings rest = _samples.Rest;
        DemonstrationResult demonstration = _test.Result();
        List<Feature> features =
        [
            .. SupplyFeatures.Of(_run, rest, _bench, today),
            .. FeedbackFeatures.Of(lost, rest, link, _profile.Ring),
            .. Measured(ring),
            .. _uncoupled,
            IndexHome.Feature(_home, _profile, _bench.HasIndex),
            .. _provoked.Features(CurrentPath.Doubt(_run, _bench, provoked: true), link),
            (link.Because ?? (demonstration.Failed > 0 ? link.Doubt : null)) is string because
                ? Feature.Missing("demonstration.failed_moves", because)
                : Feature.Of("demonstration.failed_moves", demonstration.Failed, 0, demonstration.Moves),
        ];
        features = _switches is null
            ? [.. features, .. SwitchFeatures.None]
            : [.. WithoutCount.Answer(features), .. SwitchFeatures.Of(_switches, _samples.Switches!, _profile)];
        return new RunFeatures
        {
            Features = [.. features.OrderBy(f => Place(f.Name)).Select(f => GaugeStudies.With(f, _bench))],
            Moves = [.. _run.Features, .. _aside],
            Ring = ring,
            Current = _angles.Profile(),
            ShaftDrift = IndexDrift.Line(_run.Passes),
            Demonstration = demonstration,
            Provocations = _provoked.Results(),
            PositionRateHz = _run.PositionRateHz,
            Sampling = _run.Moves.Count == 0 ? null : _run.Intervals.Times(instants),
            Links = [.. links],
        };
    }

    // What more moves tell more of.
    private IEnumerable<Feature> Measured(RingMap ring) =>
    [
        .. MotionFeatures.Of(_run, _profile, _bench),
        .. PositioningFeatures.Of(_run, _profile),
        .. IndexFeatures.Of(_run.Passes, _profile, _bench),
        .. RingFeatures.Of(ring, _run),
        .. CurrentFeatures.Of(_run, _samples.Rest, _angles, _profile, _bench),
        .. MotorFeatures.Of(_run, _profile, _bench),
        .. WindingRiseFeature.Of(_run, _profile, _bench),
        .. MotorConstantFeatures.Of(_run, _profile, _bench),
        .. RippleFeatures.Of(_run, _profile),
        .. CourseFeatures.Of(_run, _profile, _bench),
    ];

    // Block by block, so that each is fetched from memory once.
    private void Take(ReadOnlySpan<Sample> slice, int seen, Move move)
    {
        double firstOnS = FirstOnS(move);
        _room.Readings.Begin(slice.Length, move.DriveOnS, move.DriveOffS, _switches is null);
        for (int done = 0; done < slice.Length; done += SampleMarks.Most)
        {
            ReadOnlySpan<Sample> block = slice.Slice(done, Math.Min(SampleMarks.Most, slice.Length - done));

            // First what takes longest, so that the next samples come from memory meanwhile.
            SampleMarks marks = new(block);
            _room.Readings.Add(block, marks);
            if (seen <= done)
            {
                _samples.Add(block, marks, firstOnS);
            }
            else
            {
                _samples.Add(block[Math.Min(seen - done, block.Length)..], firstOnS);
            }
        }
    }

    private double FirstOnS(Move? move) => (_run.Moves.Count > 0 ? _run.Moves[0] : move)?.DriveOnS ?? double.PositiveInfinity;

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

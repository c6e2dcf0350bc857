using System.Buffers;
using System.Runtime.Intrinsics;
using Bench.Analysis.Currents;
using Bench.Analysis.Feedback;
using Bench.Analysis.Motion;
using Bench.Analysis.Motor;
using Bench.Analysis.Positioning;
using Bench.Analysis.ShaftIndex;
using Bench.Analysis.Statistics;
using Bench.Analysis.Switches;
using Bench.Analysis.Uncertainty;
using Bench.Model.Features;
using Bench.Model.Moves;
using Bench.Model.Profiles;
using Bench.Model.Traces;

namespace Bench.Analysis.Extraction;

/// <summary>One move's slice of the trace as features.</summary>
internal sealed class MoveExtraction
{
    /// <summary>Bends of which noise is taken, spread over a move that has more: they give it to 1.3 %, 1.17/√n of a deviation by medians.</summary>
    private const int MostBends = 8192;

    private readonly MoveReadings _readings;
    private readonly double _steadyFromS;
    private readonly double _steadyToS = -1;

    /// <summary>Follows a move.</summary>
    /// <param name="slice">Its samples.</param>
    /// <param name="room">Room they were taken apart in; what is made of them is good until it is used again.</param>
    /// <param name="move">The move.</param>
    /// <param name="profile">The family.</param>
    public MoveExtraction(ReadOnlySpan<Sample> slice, MoveRoom room, Move move, Profile profile)
    {
        _readings = room.Readings;
        Course = new MoveCourse(_readings, move, profile, room.Counts(_readings.Times.Length));
        Still = StillMove.Of(move, Rows, profile.Electrical);
        Passes = IndexPass.In(Course, Rows);
        Lost = _readings.AnyLost ? LostReadings.In(slice) : default;
        Switches = profile.Feedback == FeedbackKind.Switches ? new SwitchCourse(slice, move, profile) : null;
        if (Course.Turned)
        {
            (_steadyFromS, _steadyToS) = (Course.SteadyFromS, Course.SteadyToS);
        }
        else if (Switches is { Turned: true, Steady: var steady })
        {
            (_steadyFromS, _steadyToS) = steady;
        }
    }

    /// <summary>Meter rows of the slice.</summary>
    public MeterRows Rows => _readings.Meters;

    /// <summary>Meter rows of the steady part; none unless the unit turned.</summary>
    public MeterRows SteadyRows => Rows.Between(_steadyFromS, _steadyToS);

    /// <summary>The readings.</summary>
    public MoveReadings Readings => _readings;

    /// <summary>Positions.</summary>
    public MoveCourse Course { get; }

    /// <summary>Closings of port switches; null for a unit that counts.</summary>
    public SwitchCourse? Switches { get; }

    /// <summary>Means over the steady part; null unless the unit turned for long enough.</summary>
    public SteadyMeans? Means => Switches is null ? SteadyMeans.Of(Course, SteadyRows) : Switches.Means(Rows);

    /// <summary>What the move was if the count stood still.</summary>
    public StillMove Still { get; }

    /// <summary>Passes of the index.</summary>
    public List<IndexPass> Passes { get; }

    /// <summary>Position readings tried while the drive was on.</summary>
    public int AttemptsOn => _readings.AttemptsOn;

    /// <summary>Failed position readings; all zero where none failed.</summary>
    public LostReadings Lost { get; }

    /// <summary>The features.</summary>
    /// <param name="profile">The profile.</param>
    /// <param name="index">Middles of the passes, unwrapped over the run.</param>
    public MoveFeatures Features(Profile profile, IReadOnlyList<double> index)
    {
        Move move = Course.Move;
        LandingShares? landing = profile.Drive == DriveKind.Commanded ? CommandedLanding.Of(Course, profile.Ring) : LandingShares.Of(Course, profile.Ring);
        MeterRows steady = SteadyRows;
        ReadOnlySpan<double> currents = steady.Currents;
        CurrentGaps gaps = Gaps(profile);
        double? jump = Course.Turned ? CountJump.Greatest(Course) : null;
        string? failed = move.End == MoveEnd.Interrupted ? null : FailedBecause(profile, landing, gaps.Interruptions, jump);
        return new MoveFeatures
        {
            Number = move.Number,
            Stage = move.Stage,
            FromPort = move.FromPort,
            ToPort = move.ToPort,
            Direction = move.Direction,
            End = move.End,
            OnS = Math.Max(0, move.DriveOffS - move.DriveOnS),
            LandingCount = Course.Landing() is long rest ? profile.Ring.Place(rest) : Switches?.RestCount,
            LandingErrorCounts = landing?.Total,
            BenchErrorCounts = landing?.Bench,
            UnitErrorCounts = landing?.Unit,
            UnitErrorUncertainty = landing?.Uncertainty,
            CoastCounts = landing?.Coast,
            SpeedCountsPerS = Course.Turned ? Course.Speed() : Switches?.Speed,
            RunningCurrentA = currents.Length > 0 ? Robust.Median(currents) : null,
            CurrentNoiseA = Noise(currents),
            PeakCurrentA = Rows.Length > 0 ? Describe.Greatest(Rows.Currents) : null,
            LoadedVoltageV = currents.Length > 0 ? Robust.Median(steady.Voltages) : null,
            EnergyJ = Energy(),
            CurrentInterruptions = gaps.Interruptions,
            MeterGaps = gaps.OfMeter,
            FeedbackDropouts = Lost.Dropouts,
            JumpCounts = jump,
            IndexCounts = index,
            Counts = move.End != MoveEnd.Interrupted,
            Passed = move.End != MoveEnd.Interrupted && failed is null,
            FailedBecause = failed,
        };
    }

    // Second differences leave out a course that is straight over three samples, such as the slope of a seat:
    // x2 - (x1 + x3)/2 of independent noise s has deviation s √1.5.
    private static double? Noise(ReadOnlySpan<double> currents)
    {
        if (currents.Length < 8)
        {
            return null;
        }

        int n = Math.Min(currents.Length - 2, MostBends);
        double[] rented = ArrayPool<double>.Shared.Rent(n);
        Span<double> bends = rented.AsSpan(0, n);
        if (n == currents.Length - 2)
        {
            Elementwise.Bends(currents, bends);
        }
        else
        {
            double stride = (currents.Length - 2) / (double)n;
            for (int k = 0; k < n; k++)
            {
                bends[k] = Elementwise.Bend(currents, (int)(k * stride));
            }
        }

        double noise = Robust.Deviation(bends, bends) / Math.Sqrt(1.5);
        ArrayPool<double>.Shared.Return(rented);
        return noise;
    }

    // A commanded unit switches its own motor when it has arrived.
    private CurrentGaps Gaps(Profile profile)
    {
        double untilS = profile.Drive == DriveKind.Commanded && Course.HasSteady ? Course.SteadyToS : Course.Move.DriveOffS;
        return Course.HasSteady || Switches is { Turned: true }
            ? CurrentGaps.In(Course, Rows, profile.Electrical.NoLoadCurrentA / 2, untilS)
            : default;
    }

    // Trapezoid of voltage times current over the time the drive was on.
    private double? Energy()
    {
        MeterRows on = Rows.Between(Course.Move.DriveOnS, Course.Move.DriveOffS);
        if (on.Length < 2)
        {
            return null;
        }

        ReadOnlySpan<double> t = on.Times, i = on.Currents, v = on.Voltages;
        Vector256<double> four = Vector256<double>.Zero;
        int k = 1;
        for (; k <= t.Length - 4; k += 4)
        {
            Vector256<double> powers = (At(v, k) * At(i, k)) + (At(v, k - 1) * At(i, k - 1));
            four += powers / 2 * (At(t, k) - At(t, k - 1));
        }

        double joules = Vector256.Sum(four);
        for (; k < t.Length; k++)
        {
            joules += ((v[k] * i[k]) + (v[k - 1] * i[k - 1])) / 2 * (t[k] - t[k - 1]);
        }

        return joules;
    }

    private static Vector256<double> At(ReadOnlySpan<double> values, int from) => Vector256.Create(values.Slice(from, 4));

    private string? FailedBecause(Profile profile, LandingShares? landing, int interruptions, double? jump)
    {
        if (Course.Move.End != MoveEnd.Landed)
        {
            return Course.Move.End switch
            {
                MoveEnd.Stalled => "it stood still at stall current",
                MoveEnd.NoCurrent => "it stood still and no current flowed",
                MoveEnd.CountStill => "the count stood still while current flowed",
                MoveEnd.FeedbackLost => "the feedback gave no reading",
                _ when Switches is not null => $"the switch of port {Course.Move.ToPort} was not reached",
                _ => "it did not reach its target in time",
            };
        }

        if (Lost.Dropouts > 0)
        {
            return "the feedback dropped out";
        }

        if (interruptions > 0)
        {
            return "the current was interrupted";
        }

        if (Course.Move.Stage.Provokes())
        {
            // It is asked whether it turns; so short a travel, or another supply, says little of where it lands.
            return null;
        }

        // Where an exchange failed while switching off, the drive stayed on longer than commanded.
        if (Switches is not null && Switches.RestCount != Course.Move.TargetCount && Course.Move.OffFailures == 0)
        {
            return $"the switch of port {Course.Move.ToPort} was not closed where it came to rest";
        }

        Limit? landingLimit = profile.Limits.FirstOrDefault(l => l.Feature == "landing.error_counts");
        if (landingLimit is not null && landing is { Unit: double unit, Uncertainty: double u }
            && Conformity.Decide(unit, u, landingLimit.Lower, landingLimit.Upper, DecisionRule.Guarded)
                == Model.Judging.FindingDecision.DoesNotConform)
        {
            return FormattableString.Invariant($"it landed {unit:0.0} counts off, the bench's share left out");
        }

        Limit? jumpLimit = profile.Limits.FirstOrDefault(l => l.Feature == "count.jump_counts");
        return jump is double j && jumpLimit is not null
            && Conformity.Decide(j, Combination.StandardUncertainty(MotionFeatures.JumpBudget), jumpLimit.Lower, jumpLimit.Upper, DecisionRule.Guarded)
                == Model.Judging.FindingDecision.DoesNotConform
            ? FormattableString.Invariant($"the count jumped by {j:0.0}")
            : null;
    }
}

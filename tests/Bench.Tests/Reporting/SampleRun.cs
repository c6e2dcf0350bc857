using Bench.Model.BenchFiles;
using Bench.Model.Features;
using Bench.Model.Instruments;
using Bench.Model.Judging;
using Bench.Model.Moves;
using Bench.Model.Profiles;
using Bench.Model.Returns;
using Bench.Model.Runs;
using Bench.Model.Traces;

namespace Bench.Tests.Reporting;

/// <summary>Runs to print: one of each outcome.</summary>
internal sealed record SampleRun(SealedRun Run, Trace Trace)
{
    private const string DeadStatement = "Sensors never seen: 6, allowed at most 0; counts 317 to 322 were passed 41 times or more and never seen.";

    /// <summary>Reusable, 37 moves, none failed.</summary>
    public static SampleRun Healthy(int moves = 37)
    {
        (Trace trace, IReadOnlyList<Move> list) = SampleTrace.Of(moves, seed: 1);
        RunFeatures features = Features(list, Ring([], [], []), [], SequentialState.Shown);
        return Seal(Record(list, trace) with
        {
            Outcome = RunOutcome.Judged,
            Features = features,
            Judgement = Judge(features) with
            {
                Disposition = Disposition.Reusable,
                Findings = [.. Judge(features).Findings.Where(f => f.Decision == FindingDecision.Conforms)],
                Claim = ClaimOutcome.NotReproduced,
                Reasons =
                [
                    "37 moves were counted and none failed; with 95 % confidence at most 7.8 % of moves fail.",
                    "99.6 % of the ring was tested and every sensor in it was seen.",
                    "Running current 0.221 A ± 0.008 A lies within 0.14 A to 0.33 A.",
                ],
                NextStep = "Clean, label and return the unit to stock; close the claim as not reproduced.",
            },
        }, trace);
    }

    /// <summary>Repairable: six sensors dead, ten weak, two moves failed.</summary>
    public static SampleRun DeadSensors(int moves = 52)
    {
        (Trace trace, IReadOnlyList<Move> list) = SampleTrace.Of(
            moves, seed: 2, (number, since) => number is 9 or 31 && since > 0.4 ? 0.31 + (0.05 * Math.Sin(40 * since)) : 0.22 + (1.6 * Math.Exp(-since / 0.03)));
        RunFeatures features = Features(list, Ring([317, 318, 319, 320, 321, 322], [640, 641, 642, 643, 644, 645, 646, 647, 648, 649], [12, 13]), [9, 31], SequentialState.Refuted);
        return Seal(Record(list, trace) with
        {
            Outcome = RunOutcome.Judged,
            Features = features,
            Judgement = Judge(features) with
            {
                Disposition = Disposition.Repairable,
                Claim = ClaimOutcome.Confirmed,
                Reasons =
                [
                    DeadStatement,
                    "Sensors seen too seldom: 10, allowed at most 0; counts 640 to 649.",
                    "2 of 52 moves failed; the share of failing moves is shown to be too great.",
                    "Repair costs 73.50 crowns, less than half of a replacement.",
                ],
                Work =
                [
                    new("clean-ring", "Clean the ring and its window with isopropyl alcohol; let it dry.", 1.5, 12, 13.5),
                    new("replace-ring", "Replace the sensor ring; set zero at port A.", 30, 30, 60),
                ],
                WorkCost = 73.5,
                Causes =
                [
                    new("dead-sensors", "dead sensors", 0.873), new("contaminated-sensors", "dirt on the ring", 0.121),
                    new("coupling-slip", "coupling slips", 0.0052), new("worn-brushes", "worn brushes", 0.0005), new("none", "no fault", 0.0003),
                ],
                NextStep = "Take the unit to the repair bench: clean the ring, then replace it, and run again.",
            },
        }, trace);
    }

    /// <summary>Held: too few moves, calibration overdue, no index.</summary>
    public static SampleRun Held()
    {
        (Trace trace, IReadOnlyList<Move> list) = SampleTrace.Of(14, seed: 3);
        RunFeatures features = Features(list, Ring([], [], [.. Enumerable.Range(200, 190)]), [], SequentialState.Continue);
        RunRecord record = Record(list, trace);
        return Seal(record with
        {
            Start = record.Start with { Bench = record.Start.Bench with { HasIndex = false } },
            Outcome = RunOutcome.Held,
            Features = features with { Ring = features.Ring with { RevolutionsToGo = 9 } },
            Judgement = Judge(features) with
            {
                Outcome = RunOutcome.Held,
                Claim = ClaimOutcome.Undetermined,
                Reasons = ["Ring tested: 76.3 %, at least 98 % asked for."],
                Missing = ["about 23 more moves without a failure", "about 9 more revolutions over counts 200 to 389"],
                NextStep = "Run again with the endurance stage allowed to finish.",
            },
        }, trace);
    }

    /// <summary>Aborted before there were features, outputs not confirmed off.</summary>
    public static SampleRun AbortedWithoutFeatures() => Seal(
        Record([], new Trace()) with
        {
            Outcome = RunOutcome.Aborted,
            Abort = AbortReason.OutputNotConfirmed,
            AbortText = "Output up of board relays could not be confirmed off in 3 attempts: isolate the supply, then check the board and its link.",
            OutputsConfirmedOff = false,
            Events = [new(0, RunEventKind.Confirmation, "cautions and wiring confirmed"), new(0.42, RunEventKind.Fault, "output up reads on after off was written")],
        },
        new Trace());

    /// <summary>The same run with another return.</summary>
    public SampleRun With(Func<RunStart, RunStart> change) =>
        this with { Run = Run with { Record = Run.Record with { Start = change(Run.Record.Start) } } };

    private static SampleRun Seal(RunRecord record, Trace trace) => new(
        new SealedRun
        {
            Record = record with { Samples = trace.Count },
            Hash = new string('a', 64),
            PreviousHash = new string('b', 64),
            TraceFile = trace.Count > 0 ? "traces/2026/0198c0de.parquet" : null,
            TraceSha256 = trace.Count > 0 ? new string('c', 64) : null,
        },
        trace);

    private static RunRecord Record(IReadOnlyList<Move> moves, Trace trace)
    {
        DateTimeOffset began = new(2026, 5, 4, 9, 30, 0, TimeSpan.FromHours(2));
        Channel channel = new("meters", RegisterTable.InputRegister, 0);
        return new RunRecord
        {
            Start = new()
            {
                Id = Guid.Parse("0198c0de-0000-7000-8000-000000000001"),
                StartedAt = began,
                Return = new()
                {
                    Serial = "ND4-002417",
                    Symptom = Symptom.Intermittent,
                    PartNumber = "ND4-24",
                    ReturnNumber = "R-1180",
                    FieldNote = "Bay 7 stopped dosing twice in the heat of the afternoon; supply measured 24.2 V, motor heard running.",
                },
                Bench = new()
                {
                    Name = "depot-2",
                    Position = "left",
                    SupplyCurrentLimitA = 3,
                    Current = Meter(channel, 0.004, new DateOnly(2027, 1, 15), "C-2201"),
                    Voltage = Meter(channel, 0.02, new DateOnly(2026, 4, 30), "C-2202"),
                    HasIndex = true,
                    HasEmergencyStop = true,
                    Sha256 = new string('6', 64),
                },
                Profile = SampleProfile.Diverter(),
                Software = "bench 0.1.0",
                Simulated = true,
            },
            EndedAt = began.AddSeconds(trace.Count > 0 ? trace[trace.Count - 1].TimeS : 1),
            Outcome = RunOutcome.Judged,
            OutputsConfirmedOff = true,
            Events =
            [
                new(0, RunEventKind.Confirmation, "cautions and wiring confirmed for ND4-002417"),
                new(0.01, RunEventKind.Gate, "armed"),
                .. moves.SelectMany(m => new RunEvent[]
                {
                    new(m.DriveOnS, RunEventKind.OutputCommand, $"move {m.Number}: on"),
                    new(m.DriveOffS, RunEventKind.OutputResult, $"move {m.Number}: off, read back"),
                }),
            ],
            Moves = moves,
            Samples = trace.Count,
        };
    }

    private static MeterDescription Meter(Channel channel, double uncertainty, DateOnly due, string certificate) => new()
    {
        Channel = channel,
        Scale = 0.001,
        StandardUncertainty = uncertainty,
        CalibratedOn = due.AddYears(-1),
        CalibrationDueOn = due,
        Certificate = certificate,
    };

    private static RingMap Ring(int[] dead, int[] weak, int[] untested)
    {
        SensorState[] states = new SensorState[800];
        Array.Fill(states, SensorState.Seen);
        Array.ForEach(dead, c => states[c] = SensorState.Dead);
        Array.ForEach(weak, c => states[c] = SensorState.Weak);
        Array.ForEach(untested, c => states[c] = SensorState.Untested);
        return new RingMap
        {
            Passes = [.. states.Select(_ => 41)],
            Expected = [.. states.Select(_ => 21.2)],
            Sightings = [.. states.Select(s => s == SensorState.Seen ? 21 : 0)],
            States = states,
            Coverage = 1 - (untested.Length / 800.0),
            RevolutionsToGo = 0,
        };
    }

    private static RunFeatures Features(IReadOnlyList<Move> moves, RingMap ring, int[] failed, SequentialState state)
    {
        Random random = new(7);
        double good = Math.Log(0.92 / 0.995);
        double bad = Math.Log(0.08 / 0.005);
        List<double> path = [];
        List<MoveFeatures> features = [];
        foreach (Move move in moves)
        {
            bool passed = !failed.Contains(move.Number);
            path.Add((path.Count > 0 ? path[^1] : 0) + (passed ? good : bad));
            double own = (1.2 * (random.NextDouble() - 0.5)) + (move.ToPort == "C" ? 0.8 : 0);
            double benchs = 1.6 * (random.NextDouble() - 0.5);
            features.Add(new MoveFeatures
            {
                Number = move.Number,
                Stage = move.Stage,
                FromPort = move.FromPort,
                ToPort = move.ToPort,
                Direction = move.Direction,
                End = passed ? MoveEnd.Landed : MoveEnd.FeedbackLost,
                OnS = move.DriveOffS - move.DriveOnS,
                LandingErrorCounts = passed ? own + benchs : null,
                BenchErrorCounts = passed ? benchs : null,
                UnitErrorCounts = passed ? own : null,
                RunningCurrentA = 0.22 + (0.01 * random.NextDouble()),
                PeakCurrentA = 1.7,
                IndexCounts = Math.Abs(move.TravelCounts) > 250 ? [100 + (0.012 * move.Number) + (0.6 * random.NextDouble()) + (move.Direction == DriveDirection.Up ? 0.4 : 0)] : [],
                Passed = passed,
                Counts = true,
                FailedBecause = passed ? null : "the feedback gave the same count for 310 ms while the motor turned",
            });
        }

        return new RunFeatures
        {
            Features =
            [
                Feature.Of("current.running_a", 0.2213, 0.005, 37) with
                {
                    Budget =
                    [
                        new("current meter", EvaluationType.B, ErrorDistribution.Normal, 0.004),
                        new("scatter from move to move", EvaluationType.A, ErrorDistribution.Normal, 0.003) { DegreesOfFreedom = 13.2 },
                    ],
                    DegreesOfFreedom = 101.9,
                    CoverageFactor = 2.026,
                },
                Feature.Of("index.shift_counts", 0.61, 0.22, 20),
            ],
            Moves = features,
            Ring = ring,
            Current = new()
            {
                BinCounts = 8,
                MeanA = [.. Enumerable.Range(0, 100).Select(b => ring.States[b * 8] == SensorState.Untested ? (double?)null : 0.215 + (0.012 * Math.Sin(b * 0.31)) + (b % 25 is 24 or 0 ? 0.05 : 0))],
                Samples = [.. Enumerable.Repeat(55, 100)],
            },
            ShaftDrift = moves.Count == 0 ? null : new TrendLine(0.012, -0.004, 0.03, moves.Count / 2, 100.5),
            Demonstration = new()
            {
                Moves = moves.Count,
                Failed = failed.Length,
                Path = path,
                AcceptAt = Math.Log(0.05 / 0.95),
                RejectAt = Math.Log(0.95 / 0.05),
                State = state,
                UpperLimit95 = moves.Count == 0 ? null : 1 - Math.Pow(0.05, 1.0 / moves.Count),
                ExpectedMovesAtP0 = 41.2,
            },
            PositionRateHz = 136,
            Sampling = new SamplingTimes
            {
                Position = new ReadingTimes { Readings = 8409, MedianIntervalS = 0.00642, P99IntervalS = 0.0098, WorstIntervalS = 0.0513, InstantHalfWidthS = 0.0002 },
                Meters = new ReadingTimes { Readings = 2803 },
            },
            Links = [new("relays", "bus", false, 1210, 0, 1, 0), new("feedback", "bus", true, 8421, 12, 3, 0)],
        };
    }

    private static Judgement Judge(RunFeatures features)
    {
        int dead = features.Ring.States.Count(s => s == SensorState.Dead);
        int weak = features.Ring.States.Count(s => s == SensorState.Weak);
        List<Finding> findings =
        [
            Find(Feature.Of("ring.dead_counts", dead, 0, 41), dead > 0 ? FindingDecision.DoesNotConform : FindingDecision.Conforms, dead > 0 ? 0 : 1, dead > 0 ? DeadStatement : "Sensors never seen: none, allowed at most 0."),
            Find(Feature.Of("ring.weak_counts", weak, 0, 41), weak > 0 ? FindingDecision.DoesNotConform : FindingDecision.Conforms, weak > 0 ? 0 : 1, $"Sensors seen too seldom: {weak}, allowed at most 0."),
            Find(Feature.Of("ring.coverage", features.Ring.Coverage, 0, 800), features.Ring.Coverage < 0.98 ? FindingDecision.DoesNotConform : FindingDecision.Conforms, null, "Ring tested, at least 0.98 asked for."),
            Find(Feature.Of("landing.error_counts", 0.81, 0.35, 11, "port C"), FindingDecision.Conforms, 0.9999, "Mean landing error at port C 0.81 counts, allowed -6 to 6."),
            Find(Feature.Of("current.running_a", 0.2213, 0.005, 37), FindingDecision.Conforms, 0.9997, "Running current 0.221 A, allowed 0.14 A to 0.33 A."),
            Find(Feature.Of("index.shift_counts", 3.4, 0.5, 20), FindingDecision.Undecided, 0.885, "Shift at the shaft 3.4 counts: too close to 4 counts for its uncertainty."),
            Find(Feature.Missing("current.tight_spot_ratio", "current was read in too few places"), FindingDecision.NotAssessable, null, "Tight spot: not assessable, because current was read in too few places."),
            Find(Feature.Of("bench.supply_open_v", 24.11, 0.03, 31), FindingDecision.Conforms, 0.9999, "Supply, unloaded 24.11 V, allowed 20.4 V to 28.8 V."),
        ];
        return new Judgement
        {
            Outcome = RunOutcome.Judged,
            Claim = ClaimOutcome.Undetermined,
            Findings = [.. findings.OrderBy(f => f.Decision == FindingDecision.Conforms)],
            Causes = [new("none", "no fault", 0.94), new("contaminated-sensors", "dirt on the ring", 0.04), new("dead-sensors", "dead sensors", 0.02)],
            Reasons = [],
            Work = [],
            WorkCost = 0,
            Missing = [],
            NextStep = "None.",
        };
    }

    private static Finding Find(Feature feature, FindingDecision decision, double? probability, string statement)
    {
        Limit limit = SampleProfile.Diverter().Limits.First(l => l.Feature == feature.Name);
        return new Finding { Feature = feature, Limit = limit, Decision = decision, ConformityProbability = probability, Statement = statement };
    }
}

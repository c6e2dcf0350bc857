using Bench.Model.BenchFiles;
using Bench.Model.Features;
using Bench.Model.Instruments;
using Bench.Model.Judging;
using Bench.Model.Moves;
using Bench.Model.Profiles;
using Bench.Model.Returns;
using Bench.Model.Rings;
using Bench.Model.Runs;
using Bench.Model.Traces;

namespace Bench.Tests.Records;

/// <summary>Runs made up for the store's tests; their numbers mean nothing.</summary>
internal static class SampleRuns
{
    private static readonly DateTimeOffset Epoch = new(2031, 1, 2, 3, 4, 5, 678, TimeSpan.FromHours(2));

    /// <summary>The start of run n; each begins a minute after the one before.</summary>
    public static RunStart Start(int n = 1, string serial = "ND4-0001") => new()
    {
        Id = Guid.CreateVersion7(Epoch.AddMinutes(n)),
        StartedAt = Epoch.AddMinutes(n),
        Return = new UnitReturn { Serial = serial, Symptom = Symptom.Intermittent, FieldNote = "stops at \"C\"\n\u0001 – sometimes €" },
        Bench = new BenchSnapshot
        {
            Name = "bench-1",
            Position = "left",
            SupplyCurrentLimitA = 2.6,
            HasIndex = true,
            HasEmergencyStop = true,
            Sha256 = new string('b', 64),
            Current = Meter(0.001),
            Voltage = Meter(0.01),
        },
        Profile = Profile(),
        Software = "0.1.0",
        Simulated = true,
        SimulatedCondition = "healthy",
    };

    /// <summary>A trace of position readings at 136/s with meters in every third row.</summary>
    public static Trace Trace(int samples)
    {
        Trace trace = new();
        Random random = new(7);
        for (int i = 0; i < samples; i++)
        {
            bool meters = i % 3 == 0;
            bool silent = i % 97 == 96;
            trace.Add(new Sample(
                (i / 136.0) + (random.NextDouble() * 1e-4), i % 400 < 300 ? DriveState.Up : DriveState.Off,
                silent ? FeedbackStatus.Silent : FeedbackStatus.Ok, silent ? -1 : i * 2 % 800,
                meters ? Math.Round(0.22 + (0.01 * random.NextDouble()), 3) : double.NaN,
                meters ? Math.Round(24.0 - (0.1 * random.NextDouble()), 2) : double.NaN,
                meters ? (i % 800 < 20 ? IndexState.Closed : IndexState.Open) : IndexState.NotSampled));
        }

        return trace;
    }

    public static Move Move(int number) => new()
    {
        Number = number,
        Stage = StageKind.PortMoves,
        FromPort = "A",
        ToPort = "B",
        Direction = DriveDirection.Up,
        TargetCount = 200,
        TravelCounts = 200,
        DriveOnS = number,
        DriveOffS = number + 0.7,
        SettledS = number + 0.9,
        End = MoveEnd.Landed,
        ExpectedCoastCounts = 7.25,
        FirstSample = 10 * number,
        SampleCount = 10,
    };

    public static IReadOnlyList<RunEvent> Events { get; } =
    [
        new(0.0, RunEventKind.Stage, "Supply"),
        new(0.5, RunEventKind.OutputCommand, "up on"),
        new(0.507, RunEventKind.OutputResult, "up on, read back"),
    ];

    /// <summary>The record of a judged run with so many moves.</summary>
    public static RunRecord Record(RunStart start, Trace trace, int moves = 3) => new()
    {
        Start = start,
        EndedAt = start.StartedAt.AddSeconds(90.5),
        Outcome = RunOutcome.Judged,
        OutputsConfirmedOff = true,
        Events = Events,
        Moves = [.. Enumerable.Range(1, moves).Select(Move)],
        Samples = trace.Count,
        Features = Features(moves),
        Judgement = Judgement(Disposition.Reusable),
    };

    public static Judgement Judgement(Disposition disposition) => new()
    {
        Outcome = RunOutcome.Judged,
        Disposition = disposition,
        Claim = ClaimOutcome.NotReproduced,
        Findings =
        [
            new Finding
            {
                Feature = Feature.Of("current.running_a", 0.2213, 0.0011, 120),
                Limit = new Limit { Feature = "current.running_a", Upper = 0.4, Rule = DecisionRule.Guarded, Severity = Severity.Repair },
                Decision = FindingDecision.Conforms,
                ConformityProbability = 0.9999999999,
                Statement = "Running current 0.221 A is below 0.4 A.",
            },
        ],
        Causes = [new Cause("none", "no fault", 0.93)],
        Reasons = ["Nothing found."],
        Work = [],
        WorkCost = -0.0,
        Missing = [],
        NextStep = "Back to stock.",
    };

    private static RunFeatures Features(int moves) => new()
    {
        Features = [.. FeatureCatalog.All.Select((d, i) => i % 5 == 4 ? Feature.Missing(d.Name, "not read") : Feature.Of(d.Name, Math.Sqrt(i) / 3e7, 1e-9 * i, i))],
        Moves = [.. Enumerable.Range(1, moves).Select(n => new MoveFeatures
        {
            Number = n, Stage = StageKind.PortMoves, FromPort = "A", ToPort = "B", Direction = DriveDirection.Up, End = MoveEnd.Landed, OnS = 0.7 + (n / 7.0),
            LandingCount = 201, LandingErrorCounts = n / 3.0, BenchErrorCounts = 0.1 / n, UnitErrorCounts = n / 9.0, UnitErrorUncertainty = 0.3,
            CoastCounts = 7.0, SpeedCountsPerS = 263 + (n / 11.0), RunningCurrentA = 0.22 + (n / 1e4), CurrentNoiseA = 0.004, PeakCurrentA = 1.9,
            LoadedVoltageV = 23.9, EnergyJ = 5.1, IndexCounts = [100.25], Passed = true, Counts = true,
        })],
        Ring = new RingMap
        {
            Passes = [.. Enumerable.Repeat(40, 800)],
            Expected = [.. Enumerable.Range(1, 800).Select(i => 20.7 + (1.0 / i))],
            Sightings = [.. Enumerable.Repeat(21, 800)],
            States = [.. Enumerable.Repeat(SensorState.Seen, 800)],
            Coverage = 1.0,
            RevolutionsToGo = 0,
        },
        Current = new AngleProfile { BinCounts = 8, MeanA = [.. Enumerable.Range(1, 100).Select(i => i == 50 ? (double?)null : 0.22 + (1.0 / i))], Samples = [.. Enumerable.Range(1, 100)] },
        Demonstration = new DemonstrationResult
        {
            Moves = moves,
            Failed = 0,
            Path = [.. Enumerable.Range(1, moves).Select(i => -0.078 * i)],
            AcceptAt = -2.944,
            RejectAt = 2.944,
            State = SequentialState.Shown,
            UpperLimit95 = 0.04,
            ExpectedMovesAtP0 = 45.3,
        },
        PositionRateHz = 136.2,
        Links = [new LinkCounts("board", "bus", false, 12345, 1, 0, 0)],
    };

    private static Profile Profile() => new()
    {
        Family = "nutrient-diverter-4",
        Title = "Nutrient diverter, four ports",
        Version = "1.2.0",
        Author = "engineer",
        PartNumbers = ["ND4"],
        Ring = new Ring(800),
        Drive = DriveKind.Reversing,
        Feedback = FeedbackKind.Ring,
        IndexWidthCounts = 20,
        Ports = [new Port("A", 0), new Port("B", 200), new Port("C", 400), new Port("D", 600)],
        Electrical = new ElectricalData
        {
            SupplyNominalV = 24,
            SupplyMinV = 22,
            SupplyMaxV = 26,
            WindingOhm = 12,
            TorqueConstantNmPerA = 0.045,
            NoLoadCurrentA = 0.05,
            StallCurrentA = 2.0,
            RunningCurrentA = 0.22,
            GearRatio = 230,
            RunningSpeedCountsPerS = 263,
        },
        Safety = new SafetyLimits { OverCurrentA = 2.6, DeadTimeMs = 60, NoMotionMs = 400, FeedbackLostMs = 120, MostOnMs = 9000, MostDuty = 0.85, DutyWindowS = 60 },
        Routine = [new Stage { Kind = StageKind.PortMoves, MostS = 600, MostMoves = 120, SettleMs = 200 }],
        Limits = [new Limit { Feature = "current.running_a", Upper = 0.4, Rule = DecisionRule.Guarded, Severity = Severity.Repair }],
        Demonstration = new Demonstration { P0 = 0.005, P1 = 0.08, Alpha = 0.05, Beta = 0.05, MostMoves = 120, RingCoverage = 0.98, MissedSensorAlpha = 0.05 },
        Economics = new Economics { Currency = "EUR", ReplacementCost = 400, LabourPerHour = 60, GreatestRepairFraction = 0.5 },
        Remedies = [],
        FaultModes = [new FaultMode
        {
            Id = "none", Name = "no fault", Prior = 0.5, ExplainsFeedbackFault = false,
            Shows = new Dictionary<string, double>(StringComparer.Ordinal) { ["ring.weak_counts"] = 0.1, ["current.running_a"] = 1e-7 },
        }],
        Sha256 = new string('c', 64),
        Text = "family = \"nutrient-diverter-4\"\n",
    };

    private static MeterDescription Meter(double scale) => new()
    {
        Channel = new Channel("board", RegisterTable.InputRegister, 1),
        Scale = scale,
        StandardUncertainty = 0.005,
        CalibratedOn = new DateOnly(2030, 6, 1),
        CalibrationDueOn = new DateOnly(2031, 6, 1),
        Certificate = "K-1",
    };
}

using Bench.Model.BenchFiles;
using Bench.Model.Instruments;
using Bench.Model.Judging;
using Bench.Model.Moves;
using Bench.Model.Profiles;
using Bench.Model.Returns;
using Bench.Model.Runs;
using Bench.Model.Traces;
using Bench.Simulation.Benches;

namespace Bench.Campaigns.Crash;

/// <summary>
/// A made-up run of which whoever knows its number knows every sample, event and move: the process that is killed writes
/// it, and the witness needs to hear only how far it got.
/// </summary>
internal sealed class MadeRun(int number)
{
    /// <summary>Samples between two events.</summary>
    public const int EventEvery = 40;

    /// <summary>Samples between two moves; a move's samples are those before it.</summary>
    public const int MoveEvery = 200;

    private const double RateHz = 500;

    private static readonly Profile Family =
        ProfileReader.Read(File.ReadAllText(Path.Combine(Repository.Root, "profiles", "nutrient-diverter-4.toml")), "nutrient-diverter-4.toml");

    private static readonly BenchFile Bench =
        BenchFileReader.Read(StandardBench.OnSerialPort("/dev/ttyUSB0", [Family.Drive], new DateOnly(2026, 3, 1)), "bench.toml");

    /// <summary>Number of the run.</summary>
    public int Number { get; } = number;

    /// <summary>Its unit's serial, which says the number.</summary>
    public string Serial { get; } = $"GH-{number:00000}";

    /// <summary>How many samples it has in the end.</summary>
    public int Samples { get; } = 300 + (number * 7919 % 1500);

    /// <summary>The run that has a unit's serial.</summary>
    public static MadeRun Of(string serial) => new(int.Parse(serial.AsSpan(3), System.Globalization.CultureInfo.InvariantCulture));

    /// <summary>Its start.</summary>
    public RunStart Start(DateTimeOffset now) => new()
    {
        Id = Guid.CreateVersion7(now),
        StartedAt = now,
        Return = new UnitReturn { Serial = Serial, Symptom = Symptom.Intermittent },
        Bench = BenchSnapshot.Of(Bench, Bench.Positions[0], null),
        Profile = Family,
        Software = "campaign",
        Simulated = true,
    };

    /// <summary>Sample i, from 0.</summary>
    public Sample Sample(int i)
    {
        bool silent = i % 97 == 96;
        bool meters = i % 3 == 0;
        return new Sample(
            i / RateHz, (i / MoveEvery % 2) == 0 ? DriveState.Up : DriveState.Down, silent ? FeedbackStatus.Silent : FeedbackStatus.Ok,
            silent ? -1 : (i + Number) % 800, meters ? 0.2 + (i * 1e-6) + (Number * 1e-3) : double.NaN, meters ? 24 - (i * 1e-6) : double.NaN,
            IndexState.NotSampled);
    }

    /// <summary>The first samples.</summary>
    public Trace Trace(int count)
    {
        Trace trace = new();
        for (int i = 0; i < count; i++)
        {
            trace.Add(Sample(i));
        }

        return trace;
    }

    /// <summary>Event i, from 0.</summary>
    public RunEvent Event(int i) => new((i + 1) * EventEvery / RateHz, RunEventKind.Note, $"event {i} of {Serial}");

    /// <summary>Move i, from 0.</summary>
    public Move Move(int i) => new()
    {
        Number = i + 1,
        Stage = StageKind.PortMoves,
        FromPort = "A",
        ToPort = "B",
        Direction = DriveDirection.Up,
        TargetCount = Number % 800,
        TravelCounts = 200,
        DriveOnS = i * MoveEvery / RateHz,
        DriveOffS = ((i + 0.8) * MoveEvery) / RateHz,
        SettledS = (i + 1) * MoveEvery / RateHz,
        End = MoveEnd.Landed,
        FirstSample = i * MoveEvery,
        SampleCount = MoveEvery,
    };

    /// <summary>The record that it is sealed with.</summary>
    public RunRecord Record(RunStart start) => new()
    {
        Start = start,
        EndedAt = start.StartedAt.AddSeconds(Samples / RateHz),
        Outcome = RunOutcome.Judged,
        OutputsConfirmedOff = true,
        Events = [.. Enumerable.Range(0, Samples / EventEvery).Select(Event)],
        Moves = [.. Enumerable.Range(0, Samples / MoveEvery).Select(Move)],
        Samples = Samples,
        Judgement = Judgement,
    };

    /// <summary>The judgement it is sealed with, and judged with again later.</summary>
    public Judgement Judgement => new()
    {
        Outcome = RunOutcome.Judged,
        Disposition = Disposition.Reusable,
        Claim = ClaimOutcome.NotReproduced,
        Findings = [],
        Causes = [],
        Reasons = [$"Made up: {Serial}."],
        Work = [],
        WorkCost = 0,
        Missing = [],
        NextStep = "None.",
    };
}

using Bench.Analysis.Extraction;
using Bench.Model.BenchFiles;
using Bench.Model.Features;
using Bench.Model.Instruments;
using Bench.Model.Moves;
using Bench.Model.Profiles;
using Bench.Model.Rings;
using Bench.Model.Runs;
using Bench.Model.Traces;

namespace Bench.Campaigns.Checks.Recordings;

/// <summary>A recorded stroke of a rotary actuator (fixtures/recordings/rotary-actuator-moves/strokes.csv) as a move.</summary>
/// <param name="Name">Unit and run.</param>
/// <param name="Samples">Numbers of its samples.</param>
/// <param name="Counts">Position then, raw counts.</param>
public sealed record ActuatorStroke(string Name, int[] Samples, int[] Counts)
{
    /// <summary>Samples a second; assumed, see the README there.</summary>
    public const double RateHz = 250;

    /// <summary>Positions of the recorder, a 14-bit reading.</summary>
    public const int RingCounts = 16384;

    /// <summary>The strokes.</summary>
    public static IReadOnlyList<ActuatorStroke> All()
    {
        string[][] lines = [.. File.ReadLines(CheckData.PathOf(Path.Combine("fixtures", "recordings", "rotary-actuator-moves", "strokes.csv"))).Select(l => l.Split(','))];
        int[] samples = [.. lines.Skip(1).Select(l => (int)CheckData.Number(l[0]))];
        return [.. Enumerable.Range(1, lines[0].Length - 1)
            .Select(j => new ActuatorStroke(lines[0][j], samples, [.. lines.Skip(1).Select(l => (int)CheckData.Number(l[j]))]))];
    }

    /// <summary>The features that the extraction of this program makes of it: driven from its first sample until 90 % of its travel.</summary>
    public MoveFeatures Features()
    {
        int travel = Counts[^1] - Counts[0];
        int off = Samples[Array.FindIndex(Counts, c => Math.Abs(c - Counts[0]) >= 0.9 * Math.Abs(travel))];
        Trace trace = new();
        for (int i = 0; i < Samples.Length; i++)
        {
            DriveState drive = Samples[i] >= off ? DriveState.Off : travel > 0 ? DriveState.Up : DriveState.Down;
            trace.Add(new Sample(Samples[i] / RateHz, drive, FeedbackStatus.Ok, Counts[i], double.NaN, double.NaN, IndexState.NotSampled));
        }

        return new RunExtraction(Profile(), Bench()).AddMove(trace, new Move
        {
            Number = 1,
            Stage = StageKind.PortMoves,
            ToPort = travel > 0 ? "high" : "low",
            Direction = travel > 0 ? DriveDirection.Up : DriveDirection.Down,
            TargetCount = Counts[^1],
            TravelCounts = travel,
            DriveOnS = 0,
            DriveOffS = off / RateHz,
            SettledS = Samples[^1] / RateHz,
            End = MoveEnd.Landed,
            ExpectedCoastCounts = 0.1 * travel,
            FirstSample = 0,
            SampleCount = trace.Count,
        });
    }

    // The family is nothing like the recorded actuators but for what an unwrapped position needs: ring, speed, ports.
    private static Profile Profile()
    {
        string file = CheckData.PathOf(Path.Combine("profiles", "nutrient-diverter-4.toml"));
        Profile shipped = ProfileReader.Read(File.ReadAllText(file), file);
        return shipped with
        {
            Ring = new Ring(RingCounts),
            Ports = [new Port("low", 4500), new Port("high", 11600)],
            Electrical = shipped.Electrical with { RunningSpeedCountsPerS = 2750 },
        };
    }

    // No meter of the recording is used.
    private static BenchSnapshot Bench()
    {
        MeterDescription none = new()
        {
            Channel = new Channel("none", RegisterTable.InputRegister, 0),
            Scale = 1,
            StandardUncertainty = 1,
            CalibratedOn = default,
            CalibrationDueOn = default,
            Certificate = "none",
        };
        return new BenchSnapshot
        {
            Name = "recording",
            Position = "only",
            SupplyCurrentLimitA = 1,
            Current = none,
            Voltage = none,
            HasIndex = false,
            HasEmergencyStop = false,
            Sha256 = "",
        };
    }
}

using Bench.Model.Instruments;
using Bench.Model.Moves;
using Bench.Model.Rings;
using Bench.Model.Traces;

namespace Bench.Tests.Reporting;

/// <summary>
/// A trace as a bench might take it: 136 positions and 45 meter readings a second. Written down here rather than
/// simulated, so that the packet's tests stand alone.
/// </summary>
internal static class SampleTrace
{
    private const double PositionPeriodS = 1 / 136.0;
    private const double SpeedCountsPerS = 263;

    private static readonly string[] Ports = ["A", "B", "C", "D"];

    public static (Trace Trace, IReadOnlyList<Move> Moves) Of(int moves, int seed, Func<int, double, double>? current = null)
    {
        Random random = new(seed);
        Trace trace = new();
        List<Move> list = [];
        double time = 0;
        Ring ring = new(800);
        int port = 0;
        for (int i = 0; i < 40; i++, time += PositionPeriodS)
        {
            Add(DriveState.Off, 0, 0.004);
        }

        for (int number = 1; number <= moves; number++)
        {
            int to = (port + 1 + random.Next(3)) % 4;
            bool up = random.Next(2) == 0;
            int travel = ring.Travel(port * 200, to * 200, up);
            int first = trace.Count;
            double on = time;
            double duration = Math.Abs(travel) / SpeedCountsPerS;
            for (; time - on < duration; time += PositionPeriodS)
            {
                double since = time - on;
                double count = (port * 200) + ((up ? 1 : -1) * SpeedCountsPerS * since);
                double amperes = 0.22 + (1.6 * Math.Exp(-since / 0.03)) + (0.015 * (random.NextDouble() - 0.5));
                Add(up ? DriveState.Up : DriveState.Down, ring.Place((int)count), current?.Invoke(number, since) ?? amperes);
            }

            double off = time;
            for (; time - off < 0.25; time += PositionPeriodS)
            {
                Add(DriveState.Off, to * 200, 0.004);
            }

            list.Add(new Move
            {
                Number = number,
                Stage = number < 13 ? StageKind.PortMoves : StageKind.Endurance,
                FromPort = Ports[port],
                ToPort = Ports[to],
                Direction = up ? DriveDirection.Up : DriveDirection.Down,
                TargetCount = to * 200,
                TravelCounts = travel,
                DriveOnS = on,
                DriveOffS = off,
                SettledS = time,
                End = MoveEnd.Landed,
                ExpectedCoastCounts = up ? 7 : -7,
                FirstSample = first,
                SampleCount = trace.Count - first,
            });
            port = to;
        }

        return (trace, list);

        void Add(DriveState drive, int count, double amperes)
        {
            bool metered = trace.Count % 3 == 0;
            trace.Add(new Sample(
                time,
                drive,
                FeedbackStatus.Ok,
                count,
                metered ? amperes : double.NaN,
                metered ? 24.1 - (0.4 * amperes) + (0.02 * random.NextDouble()) : double.NaN,
                metered ? IndexState.Open : IndexState.NotSampled));
        }
    }
}

using Bench.Model.Instruments;
using Bench.Model.Moves;
using Bench.Model.Profiles;
using Bench.Model.Traces;

namespace Bench.Tests.Analysis.Synthetic;

/// <summary>A trace as streaming instruments would give it: current 5000 times a second, position every fifth time.</summary>
internal sealed class StreamedTrace
{
    private const double SpeedCountsPerS = 263;
    private const double TurnS = 3.3;

    public StreamedTrace(Profile profile, int moves, int seed)
    {
        Random random = new(seed);
        double position = 0.5;
        int row = 0;
        for (int m = 0; m < moves; m++)
        {
            int first = Trace.Count;
            double begin = position;
            double on = (row * 0.0002) + 0.4;
            double off = on + TurnS;
            for (; row * 0.0002 < off + 0.5; row++)
            {
                double t = (row * 0.0002) + (0.00002 * random.NextDouble());
                position = begin + (SpeedCountsPerS * (Math.Clamp(t - on, 0, TurnS) + (0.02 * Math.Clamp((t - off) / 0.04, 0, 1))));
                bool driven = t >= on && t < off;
                DriveState drive = driven ? DriveState.Up : DriveState.Off;
                double current = driven ? Math.Round(0.22 + (0.02 * (random.NextDouble() - 0.5)) + (t < on + 0.01 ? 1 : 0), 4) : 0.001;
                double voltage = Math.Round(24 - (0.4 * current) + (0.01 * random.NextDouble()), 3);
                int place = profile.Ring.Place((long)Math.Floor(position));
                IndexState index = Math.Abs(profile.Ring.Difference(profile.Ring.Place(position), 100)) < 10 ? IndexState.Closed : IndexState.Open;
                Trace.Add(row % 5 == 2
                    ? new Sample(t, drive, row % 4999 == 2 ? FeedbackStatus.Silent : FeedbackStatus.Ok, row % 4999 == 2 ? -1 : place, current, voltage, index)
                    : new Sample(t, drive, FeedbackStatus.NotSampled, -1, current, voltage, index));
            }

            Moves.Add(new Move
            {
                Number = m + 1,
                Stage = StageKind.Endurance,
                ToPort = profile.Ports[m % profile.Ports.Count].Name,
                Direction = DriveDirection.Up,
                TargetCount = profile.Ring.Place((long)position + 1),
                TravelCounts = (int)(position - begin),
                DriveOnS = on,
                DriveOffS = off,
                SettledS = row * 0.0002,
                End = MoveEnd.Landed,
                ExpectedCoastCounts = 5,
                FirstSample = first,
                SampleCount = Trace.Count - first,
            });
        }
    }

    public Trace Trace { get; } = new();

    public List<Move> Moves { get; } = [];
}

using Bench.Model.Instruments;
using Bench.Model.Moves;
using Bench.Model.Profiles;
using Bench.Model.Traces;
using Bench.Tests.Running.Kinds;

namespace Bench.Tests.Analysis.Switches;

/// <summary>Moves of a mist selector by a line of constant speed: what its switches would read, without a simulated bench.</summary>
internal sealed class SwitchTrace(double periodS = 0.010, double widthCounts = 24)
{
    private readonly double _speed = Profile.Electrical.RunningSpeedCountsPerS;
    private double _nowS;

    public static Profile Profile { get; } = KindRun.Profile("mist-selector-4");

    public Trace Trace { get; } = new();

    public List<Move> Moves { get; } = [];

    /// <summary>What a reading becomes, by the count of the port it would show (-1 between ports) and the time.</summary>
    public Func<int, double, FeedbackStatus?> Spoil { get; set; } = (_, _) => null;

    /// <summary>Turns upwards from a port for some counts, and rests there.</summary>
    public SwitchTrace Move(int from, int counts, MoveEnd end = MoveEnd.Landed)
    {
        int first = Trace.Count;
        double onS = _nowS + 0.05;
        double offS = onS + (counts / _speed);
        for (; _nowS < offS + 0.35; _nowS += periodS)
        {
            double at = from + (_speed * (Math.Clamp(_nowS, onS, offS) - onS));
            Port? port = Profile.Ports.FirstOrDefault(p => Math.Abs(Profile.Ring.Difference(at, p.Count)) < widthCounts / 2);
            FeedbackStatus status = Spoil(port?.Count ?? -1, _nowS) ?? (port is null ? FeedbackStatus.BetweenPorts : FeedbackStatus.Ok);
            DriveState drive = _nowS >= onS && _nowS <= offS ? DriveState.Up : DriveState.Off;
            Trace.Add(new Sample(_nowS, drive, status, status == FeedbackStatus.Ok ? port!.Count : -1, double.NaN, double.NaN, IndexState.NotSampled));
            Trace.Add(new Sample(_nowS, drive, FeedbackStatus.NotSampled, -1, drive == DriveState.Off ? 0 : 0.18, 24, IndexState.NotSampled));
        }

        Moves.Add(new Move
        {
            Number = Moves.Count + 1,
            Stage = StageKind.Endurance,
            FromPort = Profile.Ports.FirstOrDefault(p => p.Count == from)?.Name,
            ToPort = Profile.Ports.FirstOrDefault(p => p.Count == Profile.Ring.Place((long)from + counts))?.Name,
            Direction = DriveDirection.Up,
            TargetCount = Profile.Ring.Place((long)from + counts),
            TravelCounts = counts,
            DriveOnS = onS,
            DriveOffS = offS,
            SettledS = _nowS,
            End = end,
            FirstSample = first,
            SampleCount = Trace.Count - first,
        });
        return this;
    }
}

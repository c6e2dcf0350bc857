using Bench.Model.BenchFiles;

namespace Bench.Simulation.Benches;

/// <summary>Brings a bench to the present. Plants are advanced only when someone looks, so a watchdog that ran out meanwhile acts at its own instant first.</summary>
internal sealed class BenchPresent
{
    private readonly TimeProvider _time;
    private readonly long _start;
    private readonly IReadOnlyList<SimulatedPosition> _positions;
    private readonly Dictionary<string, SimulatedBoard> _boards;
    private readonly List<WatchdogDrop> _drops = [];

    internal BenchPresent(TimeProvider time, IReadOnlyList<DeviceDescription> devices, IReadOnlyList<SimulatedPosition> positions)
    {
        _time = time;
        _start = time.GetTimestamp();
        _positions = positions;
        _boards = devices.ToDictionary(d => d.Name, d => new SimulatedBoard(d));
    }

    private double NowS => (_time.GetTimestamp() - _start) / (double)_time.TimestampFrequency;

    /// <summary>A device as a board.</summary>
    /// <exception cref="ArgumentException">The bench file has no such device.</exception>
    internal SimulatedBoard Board(string device) =>
        _boards.GetValueOrDefault(device) ?? throw new ArgumentException($"the bench file has no device '{device}'", nameof(device));

    /// <summary>Advances everything to now.</summary>
    internal void Reach()
    {
        double now = NowS;
        while (NextToRunOut(now) is { } board)
        {
            double runsOut = board.RunsOutS;
            AdvancePlants(runsOut);
            if (board.RunOut() is var outputs and > 0)
            {
                _drops.Add(new WatchdogDrop(board.Name, _time.GetUtcNow() - TimeSpan.FromSeconds(now - runsOut), outputs));
            }
        }

        AdvancePlants(now);
    }

    /// <summary>As <see cref="Reach"/>, and someone speaks to a device.</summary>
    internal void SpeakTo(string device)
    {
        Reach();
        Board(device).SpokenTo(NowS);
    }

    /// <summary>What watchdogs switched off and nobody took yet, in order.</summary>
    internal IReadOnlyList<WatchdogDrop> TakeDrops()
    {
        WatchdogDrop[] taken = [.. _drops];
        _drops.Clear();
        return taken;
    }

    private SimulatedBoard? NextToRunOut(double now)
    {
        SimulatedBoard? next = null;
        foreach (SimulatedBoard board in _boards.Values)
        {
            if (board.RunsOutS <= now && board.RunsOutS < (next?.RunsOutS ?? double.PositiveInfinity))
            {
                next = board;
            }
        }

        return next;
    }

    private void AdvancePlants(double toS)
    {
        foreach (SimulatedPosition position in _positions)
        {
            position.AdvanceTo(toS);
        }
    }
}

using Bench.Analysis.Readings;
using Bench.Model.Instruments;
using Bench.Model.Moves;
using Bench.Model.Runs;
using Bench.Model.Traces;

namespace Bench.Running.Sampling;

/// <summary>
/// Polls a position exactly as a run does while a unit turns, with the drive off: what the bench can hold, found before
/// a unit depends on it. Only reads.
/// </summary>
public static class PollRehearsal
{
    /// <summary>Rehearses.</summary>
    /// <param name="unit">The position.</param>
    /// <param name="time">The clock.</param>
    /// <param name="length">How long; a second gives its rate within a slot, three show what comes once a second.</param>
    /// <param name="cancel">Stops between readings.</param>
    public static async Task<RehearsedPolling> RunAsync(IUnitPosition unit, TimeProvider time, TimeSpan length, CancellationToken cancel)
    {
        RunClock clock = new(time);
        Trace trace = new();
        using NoJournal journal = new();
        Sampler sampler = new(unit, clock, trace, journal);
        int attempts = 0;
        do
        {
            await sampler.SlotAsync(cancel);
            attempts++;
        }
        while (clock.NowS < length.TotalSeconds);

        double lengthS = clock.NowS;
        ReadingIntervals intervals = new();
        intervals.Add(trace.All, double.NegativeInfinity, double.PositiveInfinity);
        return new RehearsedPolling(unit.Name, attempts, lengthS, intervals.Times(null));
    }

    /// <summary>A rehearsal is not taken down.</summary>
    private sealed class NoJournal : IRunJournal
    {
        public void Write(RunEvent entry)
        {
        }

        public void Write(int first, ReadOnlySpan<Sample> samples)
        {
        }

        public void Write(Move move)
        {
        }

        public void Seal(RunRecord record, Trace trace)
        {
        }

        public void Dispose()
        {
        }
    }
}

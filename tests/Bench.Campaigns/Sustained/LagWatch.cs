using System.Diagnostics;
using Bench.Records.Journals;

namespace Bench.Campaigns.Sustained;

/// <summary>Watches how old the oldest sample is that is not on the disk yet.</summary>
internal sealed class LagWatch
{
    private const double WarmUpS = 5;

    private readonly List<double> _lagsMs = [];
    private readonly List<double> _memoryMb = [];

    /// <summary>Greatest lag, milliseconds.</summary>
    public double MostMs => _lagsMs.Max();

    /// <summary>Lag that a share of all looks was below, milliseconds.</summary>
    public double QuantileMs(double share) => _lagsMs.Order().ElementAt((int)(share * (_lagsMs.Count - 1)));

    /// <summary>What the greatest working set of the second half has over that of the first, megabytes: what only warms up stands still there.</summary>
    public double MemoryGrowthMb => _memoryMb.Count < 2 ? 0 : _memoryMb.Skip(_memoryMb.Count / 2).Max() - _memoryMb.Take(_memoryMb.Count / 2).Max();

    /// <summary>Greatest working set, megabytes.</summary>
    public double MemoryMostMb => _memoryMb.Count == 0 ? 0 : _memoryMb.Max();

    /// <summary>Working set at the end of each quarter, megabytes.</summary>
    public IEnumerable<double> MemoryByQuarter => _memoryMb.Count == 0 ? [] : Enumerable.Range(1, 4).Select(q => _memoryMb[(q * _memoryMb.Count / 4) - 1]);

    /// <summary>Looks every millisecond until it is told to stop; a lag is kept for each tenth of a second, the greatest in it.</summary>
    public void Watch(RunJournal journal, Func<int> taken, double rateHz, long began, CancellationToken stop)
    {
        double most = 0, next = 0.1, nextMemory = WarmUpS;
        while (!stop.IsCancellationRequested)
        {
            // What is taken first: a sample may be stored between the two looks, none can be untaken.
            int count = taken();
            int stored = journal.Stored;
            double now = Stopwatch.GetElapsedTime(began).TotalSeconds;
            most = Math.Max(most, stored < count ? now - (stored / rateHz) : 0);
            if (now >= next)
            {
                _lagsMs.Add(1000 * most);
                (most, next) = (0, now + 0.1);
            }

            if (now >= nextMemory)
            {
                _memoryMb.Add(Environment.WorkingSet / 1e6);
                nextMemory = now + 1;
            }

            Thread.Sleep(1);
        }
    }
}

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

    /// <summary>Working set once it runs, megabytes.</summary>
    public double MemoryBeginMb => _memoryMb.Count == 0 ? 0 : _memoryMb.Take(Math.Max(1, _memoryMb.Count / 10)).Average();

    /// <summary>Greatest working set, megabytes.</summary>
    public double MemoryMostMb => _memoryMb.Count == 0 ? 0 : _memoryMb.Max();

    /// <summary>Working set at the end, megabytes.</summary>
    public double MemoryEndMb => _memoryMb.Count == 0 ? 0 : _memoryMb.TakeLast(Math.Max(1, _memoryMb.Count / 10)).Average();

    /// <summary>Working set at the end of each quarter, megabytes: what only warms up stands still in the later ones.</summary>
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

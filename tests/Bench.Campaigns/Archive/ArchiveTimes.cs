using System.Diagnostics;
using System.Globalization;
using Bench.Model.Judging;
using Bench.Model.Returns;
using Bench.Records;
using Bench.Records.Runs;

namespace Bench.Campaigns.Archive;

/// <summary>How long a list, a search and an opening take in this process: the first time, and in the middle and at worst of those after.</summary>
internal sealed class ArchiveTimes(RecordStore store)
{
    private const double TargetMs = 100;
    private const int Page = 100;
    private const int Times = 15;

    private double _listMs;
    private double _searchMs;
    private double _openMs;

    /// <summary>Measures and prints, the key figures as a last line.</summary>
    /// <returns>Whether all are within the target.</returns>
    public bool Print()
    {
        Console.WriteLine($"{"in one process, ms",-52}{"rows",8}{"first",9}{"median",9}{"worst",9}");
        IReadOnlyList<RunSummary> newest = store.List(new RunFilter { Most = Page });
        RunSummary some = newest[Page / 2];
        int all = store.Count();

        List("newest page", new RunFilter());
        List("page in the middle", new RunFilter { Skip = all / 2 });
        Search("serial number", new RunFilter { Serial = some.Serial });
        Search("beginning of a serial number", new RunFilter { SerialPrefix = some.Serial[..^2] });
        Search("beginning that none has", new RunFilter { SerialPrefix = "QX" });
        Search("family", new RunFilter { Family = "zone-selector-3" });
        Search("outcome held", new RunFilter { Outcome = RunOutcome.Held });
        Search("disposition scrap", new RunFilter { Disposition = Disposition.Scrap });
        Search("symptom constant, claim confirmed", new RunFilter { Symptom = Symptom.Constant, Claim = ClaimOutcome.Confirmed });
        Search("likeliest cause", new RunFilter { LikeliestCause = "worn-brushes" });
        Search("likeliest cause that none has", new RunFilter { LikeliestCause = "none-such" });
        Search("a month four years ago", new RunFilter { From = some.StartedAt.AddYears(-4), Before = some.StartedAt.AddYears(-4).AddMonths(1) });
        Search("cause, serial, month together", new RunFilter
        {
            LikeliestCause = "dead-sensors",
            SerialPrefix = "ND4-1",
            From = some.StartedAt.AddYears(-4),
            Before = some.StartedAt.AddYears(-4).AddMonths(1),
        });
        Time("count of a search", _ => store.Count(new RunFilter { Disposition = Disposition.Scrap }), ref _searchMs);

        // Openings are each of another run, all over the archive.
        IReadOnlyList<RunSummary> spread = [.. Enumerable.Range(0, Times + 1).SelectMany(i => store.List(new RunFilter { Most = 1, Skip = i * (all - 1) / Times }))];
        Time("open a run", i => store.Find(spread[i].Id.ToString("D")) is null ? 0 : 1, ref _openMs);
        Time("open a run and its trace", i => store.LoadTrace(store.Find(spread[i].Id.ToString("D"))!).Count, ref _openMs);
        double whole = 0;
        Time("list of all runs, no page", _ => store.List().Count, ref whole, times: 3);

        Console.WriteLine(string.Create(CultureInfo.InvariantCulture, $"FIGURES runs={all} list_ms={_listMs:F1} search_ms={_searchMs:F1} open_ms={_openMs:F1}"));
        return Math.Max(_listMs, Math.Max(_searchMs, _openMs)) < TargetMs;
    }

    private void List(string what, RunFilter filter) => Time(what, _ => store.List(filter with { Most = Page }).Count, ref _listMs);

    private void Search(string what, RunFilter filter) => Time(what, _ => store.List(filter with { Most = Page }).Count, ref _searchMs);

    private static void Time(string what, Func<int, int> work, ref double greatestMedian, int times = Times)
    {
        List<double> ms = [];
        int rows = 0;
        for (int i = 0; i <= times; i++)
        {
            long began = Stopwatch.GetTimestamp();
            rows = work(i);
            ms.Add(Stopwatch.GetElapsedTime(began).TotalMilliseconds);
        }

        double[] after = [.. ms.Skip(1).Order()];
        greatestMedian = Math.Max(greatestMedian, after[after.Length / 2]);
        Console.WriteLine(string.Create(CultureInfo.InvariantCulture, $"{what,-52}{rows,8}{ms[0],9:F1}{after[after.Length / 2],9:F1}{after[^1],9:F1}"));
    }
}

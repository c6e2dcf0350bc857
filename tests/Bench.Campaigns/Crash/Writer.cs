using System.Text;
using Bench.Model.Runs;
using Bench.Model.Traces;
using Bench.Records;
using Bench.Records.Journals;

namespace Bench.Campaigns.Crash;

/// <summary>
/// The process that is killed: writes made-up runs through the real journal, two at a time, and says on standard output
/// what the store has acknowledged, a line at a time and never before it has.
/// </summary>
internal static class Writer
{
    private static readonly Lock Saying = new();

    /// <summary>Writes runs FROM, FROM + 1, and so on.</summary>
    /// <param name="folder">The data folder.</param>
    /// <param name="from">Number of the first.</param>
    /// <param name="runs">How many.</param>
    /// <param name="atOnce">How many at once.</param>
    /// <param name="aheadS">What its clock is ahead by, seconds.</param>
    /// <returns>0, or 3 when the store could not take it.</returns>
    public static int Write(string folder, int from, int runs, int atOnce, double aheadS)
    {
        try
        {
            using RecordStore store = RecordStore.Open(folder, TimeProvider.System);
            int next = from - 1;
            Exception? failure = null;
            Thread[] threads = [.. Enumerable.Range(0, atOnce).Select(_ => new Thread(() =>
            {
                try
                {
                    for (int n; failure is null && (n = Interlocked.Increment(ref next)) < from + runs;)
                    {
                        One(store, new MadeRun(n), DateTimeOffset.UtcNow.AddSeconds(aheadS));
                    }
                }
                catch (Exception e) when (e is StoreException or JournalException)
                {
                    failure = e;
                }
            }))];
            Array.ForEach(threads, t => t.Start());
            Array.ForEach(threads, t => t.Join());
            if (failure is not null)
            {
                throw failure;
            }

            return 0;
        }
        catch (Exception e) when (e is StoreException or JournalException)
        {
            Say($"failed {e.Message}");
            return 3;
        }
    }

    /// <summary>Recovers what other processes left.</summary>
    /// <param name="folder">The data folder.</param>
    /// <param name="times">How often.</param>
    public static int Recover(string folder, int times)
    {
        try
        {
            using RecordStore store = RecordStore.Open(folder, TimeProvider.System);
            Say("recovering");
            for (int i = 0; i < times; i++)
            {
                foreach (RunRecord run in store.RecoverInterrupted())
                {
                    Say($"recovered {run.Start.Return.Serial}");
                }
            }

            return 0;
        }
        catch (StoreException e)
        {
            Say($"failed {e.Message}");
            return 3;
        }
    }

    /// <summary>Says a line on standard output in one piece.</summary>
    public static void Say(string line)
    {
        byte[] bytes = Encoding.UTF8.GetBytes(line.ReplaceLineEndings(" ") + "\n");
        lock (Saying)
        {
            using Stream output = Console.OpenStandardOutput();
            output.Write(bytes);
        }
    }

    private static void One(RecordStore store, MadeRun made, DateTimeOffset now)
    {
        RunStart start = made.Start(now);
        using RunJournal journal = (RunJournal)store.Begin(start);
        Say($"begun {made.Number} {start.Id}");
        Trace trace = made.Trace(made.Samples);
        int told = 0;
        for (int i = 0; i < trace.Count; i++)
        {
            journal.Write(i, trace.Slice(i, 1));
            int written = i + 1;
            if (written % MadeRun.EventEvery == 0)
            {
                journal.Write(made.Event((written / MadeRun.EventEvery) - 1));
                Say($"event {made.Number} {written / MadeRun.EventEvery}");
            }

            if (written % MadeRun.MoveEvery == 0)
            {
                journal.Write(made.Move((written / MadeRun.MoveEvery) - 1));
                Say($"move {made.Number} {written / MadeRun.MoveEvery}");
            }

            if (journal.Stored is var stored && stored > told)
            {
                told = stored;
                Say($"samples {made.Number} {stored}");
            }
        }

        Say($"sealing {made.Number}");
        journal.Seal(made.Record(start), trace);
        Say($"sealed {made.Number}");
        store.AddJudgement(start.Id, made.Judgement, "2.0.0", new string('d', 64));
        Say($"judged {made.Number}");
    }
}

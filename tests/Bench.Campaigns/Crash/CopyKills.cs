using System.Diagnostics;

namespace Bench.Campaigns.Crash;

/// <summary>Kills the real <c>bench</c> while it backs a store up and restores it: what stands under its own name is whole, and the way is free for the next try.</summary>
internal sealed class CopyKills(Folders folders, Random random, Kills kills)
{
    private const string Unfinished = ".part";

    /// <summary>Kills so many.</summary>
    public void Run(int count)
    {
        if (count == 0)
        {
            return;
        }

        string data = folders.New();
        using (Child writer = Child.OfCampaign(static _ => { }, "crash-write", data, "0", "40", "2", "0"))
        {
            writer.Succeed();
        }

        string good = folders.New() + ".zip";
        TimeSpan backupTakes = Time(["backup", good, "--data", data]);
        TimeSpan restoreTakes = Time(["restore", good, "--data", folders.New()]);
        Kill("backup", count / 2, () => folders.New() + ".zip", to => ["backup", to, "--data", data], backupTakes, IsWholeBackup);
        Kill("restore", count - (count / 2), folders.New, to => ["restore", good, "--data", to], restoreTakes, IsWholeStore);
    }

    private static TimeSpan Time(string[] line)
    {
        long began = Stopwatch.GetTimestamp();
        using Child child = Child.OfBench(line);
        child.Succeed();
        return Stopwatch.GetElapsedTime(began);
    }

    private void Kill(string during, int count, Func<string> place, Func<string, string[]> line, TimeSpan takes, Func<string, bool> isWhole)
    {
        for (int done = 0, tries = 0; done < count && tries < 4 * count; tries++)
        {
            string to = place();
            using (Child child = Child.OfBench(line(to)))
            {
                // Every other one in the midst of writing, if it can be caught there.
                bool writing = tries % 2 == 0;
                if (writing)
                {
                    SpinWait.SpinUntil(() => Path.Exists(to + Unfinished) || child.HasEnded, takes * 3);
                }

                if (child.KillAfter(takes * (writing ? 0.2 : 1) * random.NextDouble()))
                {
                    kills.Count(during);
                    done++;
                }
            }

            if (Path.Exists(to) && !isWhole(to))
            {
                kills.Note(during, [$"'{to}' is not whole"]);
            }

            // As its message tells whoever meets what was left over.
            if (Directory.Exists(to + Unfinished))
            {
                Directory.Delete(to + Unfinished, recursive: true);
            }

            if (Path.Exists(to))
            {
                continue;
            }

            using Child again = Child.OfBench(line(to));
            if (again.End() != 0 || !isWhole(to))
            {
                kills.Note(during, [$"'{to}' could not be made after a kill: {again.Error}"]);
            }
        }
    }

    private bool IsWholeBackup(string file)
    {
        string folder = folders.New();
        using Child restore = Child.OfBench("restore", file, "--data", folder);
        return restore.End() == 0 && IsWholeStore(folder);
    }

    private static bool IsWholeStore(string folder)
    {
        using Child verify = Child.OfBench("verify", "--data", folder);
        return verify.End() == 0;
    }
}

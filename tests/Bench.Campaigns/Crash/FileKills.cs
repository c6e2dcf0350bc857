using System.Diagnostics;

namespace Bench.Campaigns.Crash;

/// <summary>Kills the real <c>bench</c> while it writes packets and claim files: under its own name a file is whole, or what was there before.</summary>
internal sealed class FileKills(Folders folders, Random random, Kills kills)
{
    /// <summary>Kills so many.</summary>
    public void Run(int count)
    {
        if (count == 0)
        {
            return;
        }

        string data = folders.New();
        using (Child demo = Child.OfBench("demo", "--only", "healthy", "--data", data))
        {
            if (demo.End() != 0)
            {
                kills.Note("demo", [demo.Error]);
                return;
            }
        }

        string run = "";
        using (Child runs = Child.Of(Child.BenchPath, line => run = line.Length > 36 && line[8] == '-' ? line[..36] : run, "runs", "--data", data))
        {
            runs.End();
        }

        (string Name, Func<string, string[]> Line)[] programs =
        [
            ("packet", to => ["report", run, "--out", to, "--data", data]),
            ("claim file", to => ["export", run, "--format", "zip", "--out", Path.Combine(to, "claim.zip"), "--force", "--data", data]),
        ];
        for (int i = 0; i < programs.Length; i++)
        {
            Kill(programs[i].Name, programs[i].Line, (count + i) / programs.Length);
        }
    }

    private void Kill(string during, Func<string, string[]> line, int count)
    {
        string whole = folders.New();
        Directory.CreateDirectory(whole);
        long began = Stopwatch.GetTimestamp();
        using (Child first = Child.OfBench(line(whole)))
        {
            if (first.End() != 0)
            {
                kills.Note(during, [first.Error]);
                return;
            }
        }

        TimeSpan takes = Stopwatch.GetElapsedTime(began);
        string to = folders.New();
        Directory.CreateDirectory(to);
        for (int done = 0, tries = 0; done < count && tries < 4 * count; tries++)
        {
            using Child child = Child.OfBench(line(to));

            // Every other one in the midst of writing, if it can be caught there.
            if (tries % 2 == 0)
            {
                SpinWait.SpinUntil(() => Directory.EnumerateFiles(to, "*.part").Any() || child.HasEnded, takes * 3);
                done += Counted(child.KillAfter(TimeSpan.Zero));
            }
            else
            {
                done += Counted(child.KillAfter(takes * random.NextDouble()));
            }

            foreach (string file in Directory.GetFiles(to).Where(f => !f.EndsWith(".part", StringComparison.Ordinal)))
            {
                if (!File.ReadAllBytes(file).AsSpan().SequenceEqual(File.ReadAllBytes(Path.Combine(whole, Path.GetFileName(file)))))
                {
                    kills.Note(during, [$"'{file}' is not whole"]);
                }

                // So that the next kill meets an empty place as often as one to be replaced.
                if (random.Next(2) == 0)
                {
                    File.Delete(file);
                }
            }
        }

        int Counted(bool killed)
        {
            if (killed)
            {
                kills.Count(during);
            }

            return killed ? 1 : 0;
        }
    }
}

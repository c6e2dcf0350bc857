using System.Diagnostics;
using System.Globalization;
using Bench.Campaigns.Crash.Faults;

namespace Bench.Campaigns.Crash;

/// <summary>Kills programs that write, and does to data folders what disks, clocks and people do to them.</summary>
internal static class CrashCommand
{
    /// <summary>Kills and breaks, and tells what was lost.</summary>
    /// <param name="count">How many processes to kill; 0 for none.</param>
    /// <param name="seed">Seed of the instants.</param>
    /// <param name="faultsToo">Whether the other faults are tried, too.</param>
    /// <returns>0 when nothing acknowledged was lost, nothing half was visible and each fault was named.</returns>
    public static int Run(int count, int seed, bool faultsToo)
    {
        long began = Stopwatch.GetTimestamp();
        Kills kills = new();
        Random random = new(seed);
        using Folders folders = new();
        if (count > 0)
        {
            int files = count * 3 / 20;
            int migrations = count / 20;
            int copies = count / 10;
            new StoreKills(folders, random, kills).Run(count - files - migrations - copies);
            new MigrationKills(folders, random, kills).Run(migrations);
            new FileKills(folders, random, kills).Run(files);
            new CopyKills(folders, random, kills).Run(copies);
        }

        int killed = kills.Done.Values.Sum();
        Console.WriteLine($"kills during: {string.Join(", ", kills.Done.Select(d => $"{d.Key} {d.Value}"))}; {kills.Acknowledged} samples, events, moves, runs and entries were acknowledged");

        int faults = 0;
        List<string> lost = [.. kills.Problems];
        List<string> unnamed = [];
        foreach (IFault fault in faultsToo ? AllFaults.Of(folders, random) : [])
        {
            FaultResult result = fault.Try();
            Console.WriteLine($"{fault.Name}: {(result.Skipped ? "SKIPPED, " : "")}{result.Said}");
            faults += result.Skipped ? 0 : 1;
            lost.AddRange(result.Lost.Select(p => $"{fault.Name}: {p}"));
            unnamed.AddRange(result.Unnamed.Select(p => $"{fault.Name}: {p}"));
        }

        foreach (string problem in lost.Concat(unnamed).Take(60))
        {
            Console.WriteLine($"PROBLEM {problem}");
        }

        Console.WriteLine(string.Create(
            CultureInfo.InvariantCulture,
            $"RESULT kills={killed} faults={faults} lost={lost.Count} unnamed={unnamed.Count} s={Stopwatch.GetElapsedTime(began).TotalSeconds:0}"));
        return lost.Count + unnamed.Count > 0 || killed < count ? 1 : 0;
    }
}

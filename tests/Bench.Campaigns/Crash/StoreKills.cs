using System.Globalization;

namespace Bench.Campaigns.Crash;

/// <summary>Kills writers of one data folder after another: while they journal, seal, add an entry, and while a recovery of that is under way.</summary>
internal sealed class StoreKills(Folders folders, Random random, Kills kills)
{
    private const int KillsPerFolder = 8;
    private const int RunsPerWriter = 1000;

    private double _sealS = 0.05;
    private double _recoverS = 0.1;

    /// <summary>Kills so many.</summary>
    public void Run(int count)
    {
        for (int done = 0; done < count;)
        {
            string folder = folders.New();
            Acknowledged acknowledged = new();
            for (int n = 0; n < KillsPerFolder && done < count; n++)
            {
                done += Kill(folder, n * RunsPerWriter, acknowledged);
                kills.Note($"folder {folder}, kill {n}", Witness.Problems(folder, acknowledged));
            }

            kills.Acknowledged += acknowledged.Count;
            using Child verify = Child.OfBench("verify", "--data", folder);
            if (verify.End() != 0)
            {
                kills.Note(folder, [$"'bench verify' ends with {verify.End()}: {verify.Error}"]);
            }

            if (kills.Problems.Count == 0)
            {
                Directory.Delete(folder, recursive: true);
            }
        }
    }

    private int Kill(string folder, int from, Acknowledged acknowledged)
    {
        (string during, string word, double mostS) = random.Next(10) switch
        {
            < 4 => ("journal", "begun", 0.4),
            < 8 => ("sealing", "sealing", 1.5 * _sealS),
            8 => ("entry", "sealed", 0.03),
            _ => ("start", "", 0.3),
        };
        int done = 0;
        using (Child writer = Child.OfCampaign(
            acknowledged.Take, "crash-write", folder, from.ToString(CultureInfo.InvariantCulture), RunsPerWriter.ToString(CultureInfo.InvariantCulture), "2", "0"))
        {
            if (word.Length > 0 && !writer.Says(word))
            {
                kills.Note(folder, [$"the writer ended by itself: {acknowledged.Failure} {writer.Error}"]);
                return 1;
            }

            done += After(writer, during, mostS);
            _sealS = Smoothed(_sealS, writer.Between("sealing", "sealed"));
        }

        if (during is "journal" or "sealing" && random.Next(2) == 0)
        {
            using Child recovery = Child.OfCampaign(acknowledged.Take, "crash-recover", folder, "1");
            done += recovery.Says("recovering") ? After(recovery, "recovery", 1.5 * _recoverS) : 0;
            _recoverS = Smoothed(_recoverS, recovery.Between("recovering", "recovered"));
        }

        return done;
    }

    private int After(Child child, string during, double mostS)
    {
        if (!child.KillAfter(TimeSpan.FromSeconds(random.NextDouble() * mostS)))
        {
            return 0;
        }

        kills.Count(during);
        return 1;
    }

    private static double Smoothed(double old, double? seen) => seen is { } s ? (0.7 * old) + (0.3 * s) : old;
}

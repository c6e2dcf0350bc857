using Bench.Records;

namespace Bench.Campaigns.Archive;

/// <summary>Makes a data folder into an archive of many runs, or measures one.</summary>
internal static class ArchiveCommand
{
    /// <summary>Fills a data folder that holds a few real runs up to so many.</summary>
    public static int Fill(string folder, int runs)
    {
        Console.WriteLine(ArchiveFill.To(folder, runs));
        return 0;
    }

    /// <summary>Times lists, searches and openings of an archive in this process.</summary>
    /// <returns>0 when each is within its target.</returns>
    public static int Measure(string folder)
    {
        using RecordStore store = RecordStore.Open(folder, TimeProvider.System, Durability.Relaxed);
        return new ArchiveTimes(store).Print() ? 0 : 1;
    }
}

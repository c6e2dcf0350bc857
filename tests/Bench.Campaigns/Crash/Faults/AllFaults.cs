namespace Bench.Campaigns.Crash.Faults;

/// <summary>All faults of the campaign.</summary>
internal static class AllFaults
{
    /// <summary>All of them.</summary>
    public static IReadOnlyList<IFault> Of(Folders folders, Random random) =>
    [
        new DiskFull(folders), new ReadOnlyFolder(folders), new LogCut(folders, random), new TraceDamaged(folders, random),
        new ClockBack(folders), new TwoPrograms(folders), new PowerCut(folders, random),
    ];
}

namespace Bench.Campaigns.Crash.Faults;

/// <summary>Two programs record two runs each on one data folder, while a third looks for unfinished runs all the time.</summary>
internal sealed class TwoPrograms(Folders folders) : IFault
{
    /// <inheritdoc/>
    public string Name => "two programs on one folder";

    /// <inheritdoc/>
    public FaultResult Try()
    {
        string folder = folders.New();
        Acknowledged first = new(), second = new(), looking = new();
        using Child a = Child.OfCampaign(first.Take, "crash-write", folder, "0", "8", "2", "0");
        using Child b = Child.OfCampaign(second.Take, "crash-write", folder, "1000", "8", "2", "0");
        using Child c = Child.OfCampaign(looking.Take, "crash-recover", folder, "200");
        List<string> unnamed = [];
        foreach ((Child child, Acknowledged acknowledged) in new[] { (a, first), (b, second), (c, looking) })
        {
            unnamed.AddRange(child.End() == 0 ? [] : [$"a program ended: {acknowledged.Failure} {child.Error}"]);
        }

        List<string> lost =
        [
            .. looking.Recovered.Select(serial => $"the living run {serial} was taken for unfinished"),
            .. Witness.Problems(folder, first),
            .. Witness.Problems(folder, second),
        ];
        int runs = first.Runs.Count + second.Runs.Count;
        lost.AddRange(runs == 16 ? [] : [$"{runs} of 16 runs were made"]);
        return new FaultResult("16 runs in one chain, none taken for unfinished", lost, unnamed);
    }
}

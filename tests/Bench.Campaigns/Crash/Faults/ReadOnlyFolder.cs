namespace Bench.Campaigns.Crash.Faults;

/// <summary>A data folder that must not be written: refused before anything is touched, by name.</summary>
internal sealed class ReadOnlyFolder(Folders folders) : IFault
{
    /// <inheritdoc/>
    public string Name => "read-only folder";

    /// <inheritdoc/>
    public FaultResult Try()
    {
        string folder = folders.New();
        Acknowledged acknowledged = new();
        using (Child writer = Child.OfCampaign(acknowledged.Take, "crash-write", folder, "0", "3", "1", "0"))
        {
            writer.Succeed();
        }

        List<string> unnamed = [], lost = [];
        Acknowledged refused = new();
        using (Mounted? mounted = Mounted.ReadOnly(folder))
        {
            if (mounted is null)
            {
                return new FaultResult("mounting is not permitted to this user", [], [], Skipped: true);
            }

            using Child writer = Child.OfCampaign(refused.Take, "crash-write", folder, "10", "1", "1", "0");
            unnamed.AddRange(writer.End() == 3 ? FaultResult.Lacks(refused.Failure, folder, "read-only", "another data folder") : ["the writer did not fail"]);
            using Child demo = Child.OfBench("demo", "--only", "healthy", "--data", folder);
            unnamed.AddRange(demo.End() == 2 ? FaultResult.Lacks(demo.Error, folder, "read-only") : ["'bench demo' was not refused"]);
        }

        lost.AddRange(Witness.Problems(folder, acknowledged));
        return new FaultResult(refused.Failure ?? "", lost, unnamed);
    }
}

using Bench.Records;

namespace Bench.Campaigns.Crash.Faults;

/// <summary>The wall clock stands two hours earlier at the next start: the chain keeps the order, no run ends before it began, and the next run says so.</summary>
/// <remarks>A step in the midst of a run is a test of the runner, which takes its clock by constructor.</remarks>
internal sealed class ClockBack(Folders folders) : IFault
{
    private const string AheadS = "7200";

    /// <inheritdoc/>
    public string Name => "clock set back";

    /// <inheritdoc/>
    public FaultResult Try()
    {
        string folder = folders.New();
        Acknowledged acknowledged = new();
        using (Child early = Child.OfCampaign(acknowledged.Take, "crash-write", folder, "0", "1000", "2", AheadS))
        {
            early.Says("sealed");
            early.KillAfter(TimeSpan.FromMilliseconds(50));
        }

        using (Child late = Child.OfCampaign(acknowledged.Take, "crash-write", folder, "1000", "2", "1", "0"))
        {
            late.Succeed();
        }

        List<string> lost = [.. Witness.Problems(folder, acknowledged)];
        using (RecordStore store = RecordStore.Open(folder, TimeProvider.System))
        {
            lost.AddRange(store.List().Select(r => store.Find(r.Id.ToString())!.Record).Where(r => r.EndedAt < r.Start.StartedAt)
                .Select(r => $"run {r.Start.Return.Serial} ended before it began"));
        }

        // A bench that is not there: the run says what is wrong with the clock before it looks for its devices.
        string benchFile = Path.Combine(folder, "bench.toml");
        File.WriteAllText(benchFile, Simulation.Benches.StandardBench.OnSerialPort("/dev/none", [Bench.Model.Profiles.DriveKind.Reversing], new DateOnly(2026, 3, 1)));
        using Child run = Child.OfBench(
            "run", "--bench", benchFile, "--profile", Path.Combine(Repository.Root, "profiles", "nutrient-diverter-4.toml"),
            "--serial", "GH-1", "--symptom", "constant", "--yes", "--data", folder);
        run.End();
        string said = run.Error.Split('\n').FirstOrDefault(l => l.Contains("clock", StringComparison.Ordinal)) ?? run.Error;
        return new FaultResult(said, lost, [.. FaultResult.Lacks(said, "set back", "Set it right")]);
    }
}

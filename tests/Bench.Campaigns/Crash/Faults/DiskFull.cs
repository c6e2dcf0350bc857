namespace Bench.Campaigns.Crash.Faults;

/// <summary>
/// The disk fills up while two runs are written, in a journal or in a sealing as it comes. Where no small file system can
/// be mounted, a limit on the size of a file stands in for it (setrlimit(2), RLIMIT_FSIZE).
/// </summary>
internal sealed class DiskFull(Folders folders) : IFault
{
    private const int BallastKilobytes = 1024;

    private static readonly int[] Kilobytes = [1900, 2500, 3300, 4600];

    /// <inheritdoc/>
    public string Name => "disk full";

    /// <inheritdoc/>
    public FaultResult Try()
    {
        List<string> lost = [], unnamed = [];
        string said = "";
        foreach (int kilobytes in Kilobytes)
        {
            string folder = folders.New();
            using Mounted? disk = Mounted.Small(folder, kilobytes);
            string ballast = Path.Combine(folder, "ballast");
            Acknowledged acknowledged = new();
            if (disk is not null)
            {
                File.WriteAllBytes(ballast, new byte[BallastKilobytes * 1024]);
            }

            string data = Path.Combine(folder, "data");
            string[] write = ["crash-write", data, "0", "1000", "2", "0"];
            using Child writer = disk is not null
                ? Child.OfCampaign(acknowledged.Take, write)
                : Child.Of("bash", acknowledged.Take, ["-c", $"ulimit -f {kilobytes}; trap '' XFSZ; exec \"$0\" \"$@\"", Environment.ProcessPath!, .. write]);
            int code = writer.End();
            said = $"{(disk is null ? "(limit on the size of files) " : "")}{acknowledged.Failure}";
            unnamed.AddRange(code == 3
                ? FaultResult.Lacks(acknowledged.Failure, disk is null ? [data] : [data, "full", "free some space"])
                : [$"the writer ended with {code}: {writer.Error}"]);

            // A person frees some space; then all that was acknowledged is there.
            File.Delete(ballast);
            lost.AddRange(Witness.Problems(data, acknowledged).Select(p => $"{kilobytes} kB: {p}"));
        }

        return new FaultResult(said, lost, unnamed);
    }
}

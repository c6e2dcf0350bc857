using System.Globalization;
using Bench.Campaigns.Crash.PowerCuts;

namespace Bench.Campaigns.Crash.Faults;

/// <summary>
/// The power fails at any instant of a few runs: everything that strace saw go to the file system is replayed up to there,
/// flushed writes whole, the others all, some or none, pages torn at sectors.
/// </summary>
internal sealed class PowerCut(Folders folders, Random random) : IFault
{
    private const int Cuts = 60;

    private static readonly double[] Shares = [0, 0.5, 1];

    /// <inheritdoc/>
    public string Name => "power cut";

    /// <inheritdoc/>
    public FaultResult Try()
    {
        string folder = folders.New();
        string log = folder + ".strace";
        string above = Path.GetDirectoryName(folder)!;
        try
        {
            using Child writer = Child.Of(
                "strace", static _ => { }, "-f", "-y", "-xx", "-s", "1000000", "-e", $"trace={SystemCallLog.Calls}", "-e", "signal=none", "-o", log,
                Environment.ProcessPath!, "crash-write", folder, "0", "3", "1", "0");
            if (writer.End() != 0)
            {
                return new FaultResult($"strace does not work here: {writer.Error.Trim()}", [], [], Skipped: true);
            }
        }
        catch (System.ComponentModel.Win32Exception)
        {
            return new FaultResult("strace is not installed", [], [], Skipped: true);
        }

        IReadOnlyList<FileOperation> all = SystemCallLog.Read(log, above);
        if (all.FirstOrDefault(o => o.Kind == FileOperationKind.Say && o.Path.StartsWith("unknown", StringComparison.Ordinal) && o.Path.Contains(folder, StringComparison.Ordinal)) is { } unknown)
        {
            return new FaultResult(unknown.Path, ["a call that can't be followed changed a file"], []);
        }

        FileOperation[] operations = [.. all.Where(o => o.Kind is FileOperationKind.Say || o.Path == above || o.Path == folder || o.Path.StartsWith(folder + "/", StringComparison.Ordinal))];
        List<string> lost = [];
        int first = operations[0].Entered, last = operations[^1].Entered;
        for (int i = 0; i < Cuts; i++)
        {
            int cut = i < Shares.Length ? last : random.Next(first, last + 1);
            double share = Shares[i % Shares.Length];
            lost.AddRange(Problems(operations, cut, share, folder).Select(
                p => string.Create(CultureInfo.InvariantCulture, $"cut at {cut} of {last}, {share:0.#} of what was not flushed: {p}")));
        }

        // The trial of the trial: had the program left one kind of flush out, it would have been seen. In the midst of the
        // last run, for at the end all that was in the log is in the database.
        int midst = operations.Last(o => o.Kind == FileOperationKind.Say && o.Path.StartsWith("event ", StringComparison.Ordinal)).Entered;
        foreach (string end in (string[])[above, folder, "/traces", ".part", "-wal"])
        {
            FileOperation[] without = [.. operations.Where(o => o.Kind != FileOperationKind.Flush || !o.Path.EndsWith(end, StringComparison.Ordinal))];
            lost.AddRange(Problems(without, midst, 0, folder).Count > 0 ? [] : [$"a program that never flushes '*{end}' would pass"]);
        }

        int flushes = operations.Count(o => o.Kind == FileOperationKind.Flush);
        return new FaultResult($"{Cuts} cuts in {operations.Length} operations with {flushes} flushes; all that was acknowledged is there", lost, []);
    }
    private IReadOnlyList<string> Problems(IReadOnlyList<FileOperation> operations, int cut, double share, string folder)
    {
        Acknowledged acknowledged = new();
        foreach (FileOperation said in operations.Where(o => o.Kind == FileOperationKind.Say && o.Entered <= cut))
        {
            acknowledged.Take(said.Path);
        }

        string found = folders.New();
        DiskAfterCut.Make(operations, cut, share, random, folder, found);
        IReadOnlyList<string> problems = Witness.Problems(found, acknowledged);
        if (Directory.Exists(found))
        {
            Directory.Delete(found, recursive: true);
        }

        return problems;
    }
}

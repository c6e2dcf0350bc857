using Bench.Records;
using Bench.Records.Integrity;

namespace Bench.Campaigns.Crash.Faults;

/// <summary>One byte of a trace file differs, or its end is gone: named by <c>verify</c>, and nothing is made of it.</summary>
internal sealed class TraceDamaged(Folders folders, Random random) : IFault
{
    private const int Tries = 20;

    /// <inheritdoc/>
    public string Name => "trace file damaged";

    /// <inheritdoc/>
    public FaultResult Try()
    {
        string folder = folders.New();
        Acknowledged acknowledged = new();
        using (Child writer = Child.OfCampaign(acknowledged.Take, "crash-write", folder, "0", "3", "1", "0"))
        {
            writer.Succeed();
        }

        string id = acknowledged.Runs.First().Id.ToString();
        string path = Path.Combine(folder, "traces", $"{id}.parquet");
        byte[] whole = File.ReadAllBytes(path);
        List<string> unnamed = [];
        using (RecordStore store = RecordStore.Open(folder, TimeProvider.System))
        {
            for (int i = 0; i < Tries; i++)
            {
                Damage(path, whole);
                if (store.Verify() is not [{ Kind: IntegrityProblemKind.TraceAltered } problem] || !problem.Text.Contains(path, StringComparison.Ordinal))
                {
                    unnamed.Add($"try {i}: 'verify' does not name '{path}'");
                }
            }
        }

        string output = folders.New();
        string said = "";
        foreach (string[] line in (string[][])[["verify"], ["report", id, "--out", output], ["export", id, "--table", "trace", "--format", "csv", "--out", output]])
        {
            using Child bench = Child.Of(Child.BenchPath, text => said = text.Contains(path, StringComparison.Ordinal) ? text : said, [.. line, "--data", folder]);
            int code = bench.End();
            unnamed.AddRange(code == 0 ? [$"'bench {line[0]}' goes on"] : []);
            unnamed.AddRange(line[0] == "verify" ? FaultResult.Lacks(said, path) : FaultResult.Lacks(bench.Error, path, "restore it"));
        }

        string[] made = Directory.Exists(output) ? Directory.GetFiles(output) : File.Exists(output) ? [output] : [];
        File.WriteAllBytes(path, whole);
        return new FaultResult(said, [.. made.Select(f => $"'{f}' was made of a damaged trace"), .. Witness.Problems(folder, acknowledged)], unnamed);
    }

    private void Damage(string path, byte[] whole)
    {
        byte[] bytes = [.. whole];
        int at = random.Next(bytes.Length);
        bytes[at] ^= (byte)(1 << random.Next(8));
        File.WriteAllBytes(path, random.Next(4) == 0 ? whole[..at] : bytes);
    }
}

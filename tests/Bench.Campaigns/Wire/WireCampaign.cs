using System.Security.Cryptography;

namespace Bench.Campaigns.Wire;

/// <summary>Many runs, one per thread at a time, on all cores; the outcome does not depend on how many.</summary>
public sealed class WireCampaign
{
    private const int MostKept = 200;
    private readonly SortedDictionary<ulong, WireResult> _bad = [];
    private readonly SortedDictionary<string, int> _outcomes = [];
    private readonly SortedDictionary<string, int> _kinds = [];
    private readonly SortedDictionary<string, int> _rigs = [];

    private WireCampaign()
    {
    }

    /// <summary>Runs with a violation, by seed; the first 200.</summary>
    public IReadOnlyCollection<WireResult> Bad => _bad.Values;

    /// <summary>Runs by how they came out.</summary>
    public IReadOnlyDictionary<string, int> Outcomes => _outcomes;

    /// <summary>Runs by family and bench.</summary>
    public IReadOnlyDictionary<string, int> Rigs => _rigs;

    /// <summary>Runs by kind of fault in their plan.</summary>
    public IReadOnlyDictionary<string, int> Kinds => _kinds;

    /// <summary>Violations by rule, those of condemning left out.</summary>
    public SortedDictionary<string, int> Rules { get; } = [];

    /// <summary>Runs in which the healthy unit was condemned for what the bench did.</summary>
    public int Condemned { get; private set; }

    /// <summary>Runs with a fault on the feedback's own wires and a finding on the feedback.</summary>
    public int BlamedFeedback { get; private set; }

    /// <summary>Simulated seconds.</summary>
    public double SimulatedS { get; private set; }

    /// <summary>All violations but condemnations.</summary>
    public int Violations => Rules.Values.Sum();

    /// <summary>Hash over the hashes of all runs in the order of their seeds.</summary>
    public string Hash { get; private set; } = "";

    /// <summary>Runs seeds <paramref name="first"/>, <paramref name="first"/> + 1, and so on.</summary>
    public static WireCampaign Of(ulong first, int runs)
    {
        WireCampaign campaign = new();
        byte[][] hashes = new byte[runs][];
        Lock kept = new();
        Parallel.For(0, runs, new ParallelOptions { MaxDegreeOfParallelism = Environment.ProcessorCount }, i =>
        {
            WireResult result = WireRun.Of(first + (ulong)i);
            hashes[i] = result.Hash;
            lock (kept)
            {
                campaign.Add(result);
            }
        });
        campaign.Hash = Convert.ToHexStringLower(SHA256.HashData(hashes.SelectMany(h => h).ToArray()));
        return campaign;
    }

    private void Add(WireResult result)
    {
        Count(_outcomes, result.Outcome);
        Count(_rigs, result.Rig.Name);
        foreach (string kind in result.Plan.Faults.Select(f => f.Kind.ToString()).DefaultIfEmpty("none").Distinct())
        {
            Count(_kinds, kind);
        }

        foreach (Violation violation in result.Violations.Where(v => v.Rule != Oracle.Condemned))
        {
            Count(Rules, violation.Rule);
        }

        Condemned += result.Condemned ? 1 : 0;
        BlamedFeedback += result.BlamedFeedback ? 1 : 0;
        SimulatedS += result.Witness.NowS;
        if (result.Violations.Count > 0)
        {
            _bad[result.Seed] = result;
            if (_bad.Count > MostKept)
            {
                _bad.Remove(_bad.Keys.Last());
            }
        }
    }

    private static void Count(SortedDictionary<string, int> counts, string key) => counts[key] = counts.GetValueOrDefault(key) + 1;
}

using System.Diagnostics;
using System.Globalization;

namespace Bench.Campaigns.Wire;

/// <summary>Runs under drawn faults, with an oracle at the plant.</summary>
internal static class WireCommand
{
    /// <summary>Runs seeds SEED, SEED + 1, and so on, and tells what broke.</summary>
    /// <param name="seed">Seed of the first run.</param>
    /// <param name="runs">How many, at least 1.</param>
    /// <param name="replay">Whether to tell each run's story instead.</param>
    /// <returns>0 when no rule was broken and no unit condemned.</returns>
    public static int Run(ulong seed, int runs, bool replay)
    {
        if (replay)
        {
            for (int i = 0; i < runs; i++)
            {
                Console.Write(Story.Of(WireRun.Of(seed + (ulong)i)));
            }

            return 0;
        }

        long begin = Stopwatch.GetTimestamp();
        WireCampaign campaign = WireCampaign.Of(seed, runs);
        double seconds = Stopwatch.GetElapsedTime(begin).TotalSeconds;

        foreach (WireResult bad in campaign.Bad.Take(40))
        {
            foreach (Violation violation in bad.Violations)
            {
                Console.WriteLine($"seed {bad.Seed} ({bad.Rig.Name}; {string.Join(" + ", bad.Plan.Faults.Select(f => f.Kind))}) {violation.Rule}: {violation.Text}");
            }
        }

        Tell("violations by rule", campaign.Rules);
        Tell("runs by outcome", campaign.Outcomes);
        Tell("runs by bench", campaign.Rigs);
        Tell("runs by fault", campaign.Kinds);
        Console.WriteLine(string.Create(CultureInfo.InvariantCulture, $"findings on the feedback in runs with faults on its own wires: {campaign.BlamedFeedback}; simulated {campaign.SimulatedS:0} s in {seconds:0.0} s"));
        Console.WriteLine($"hash of all traces and records: {campaign.Hash}");
        Console.WriteLine(string.Create(
            CultureInfo.InvariantCulture,
            $"RESULT violations={campaign.Violations} condemned={campaign.Condemned} runs={runs} s_per_1000={1000.0 * seconds / runs:0.0}"));
        return campaign.Violations + campaign.Condemned > 0 ? 1 : 0;
    }

    private static void Tell(string title, IReadOnlyDictionary<string, int> counts) =>
        Console.WriteLine($"{title}: {string.Join(", ", counts.Select(c => $"{c.Key} {c.Value}"))}");
}

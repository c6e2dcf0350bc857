using System.Diagnostics;
using System.Globalization;
using Bench.Campaigns.Confusion;
using Bench.Campaigns.Wire;

if (args is ["confusion", .. var confusion])
{
    return ConfusionProgram.Run(confusion);
}

// wire SEED RUNS [--replay]: runs under drawn faults, with an oracle at the plant.
if (args is not ["wire", var seedText, var runsText, .. var rest] || rest is not ([] or ["--replay"])
    || !ulong.TryParse(seedText, CultureInfo.InvariantCulture, out ulong seed)
    || !int.TryParse(runsText, CultureInfo.InvariantCulture, out int runs) || runs < 1)
{
    Console.Error.WriteLine("usage: wire SEED RUNS [--replay]   SEED: 0 or more, RUNS: 1 or more; run n has seed SEED + n - 1, --replay tells each run's story");
    return 2;
}

if (rest is ["--replay"])
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
        Console.WriteLine($"seed {bad.Seed} ({bad.Rig.Profile.Family}, {(bad.Rig.IsTcp ? "TCP" : "serial")}; {string.Join(" + ", bad.Plan.Faults.Select(f => f.Kind))}) {violation.Rule}: {violation.Text}");
    }
}

Tell("violations by rule", campaign.Rules);
Tell("runs by outcome", campaign.Outcomes);
Tell("runs by fault", campaign.Kinds);
Console.WriteLine(string.Create(CultureInfo.InvariantCulture, $"findings on the feedback in runs with faults on its own wires: {campaign.BlamedFeedback}; simulated {campaign.SimulatedS:0} s in {seconds:0.0} s"));
Console.WriteLine($"hash of all traces and records: {campaign.Hash}");
Console.WriteLine(string.Create(
    CultureInfo.InvariantCulture,
    $"RESULT violations={campaign.Violations} condemned={campaign.Condemned} runs={runs} s_per_1000={1000.0 * seconds / runs:0.0}"));
return campaign.Violations + campaign.Condemned > 0 ? 1 : 0;

static void Tell(string title, IReadOnlyDictionary<string, int> counts) =>
    Console.WriteLine($"{title}: {string.Join(", ", counts.Select(c => $"{c.Key} {c.Value}"))}");

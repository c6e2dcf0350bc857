using System.Diagnostics;
using System.Globalization;

namespace Bench.Campaigns.Confusion;

/// <summary><c>confusion [--mismatch] SEED UNITS</c>: how often the bench is right about simulated units of every condition.</summary>
internal static class ConfusionCommand
{
    /// <summary>Runs it.</summary>
    /// <returns>0 when every target is met, else 1.</returns>
    public static int Run(ulong seed, int units, bool mismatch)
    {
        long begin = Stopwatch.GetTimestamp();
        ConfusionCampaign campaign = ConfusionCampaign.Of(seed, units, mismatch);
        Console.WriteLine(string.Create(CultureInfo.InvariantCulture, $"{units} units in {Stopwatch.GetElapsedTime(begin).TotalSeconds:0} s"));
        return ConfusionReport.Write(campaign, mismatch, Console.Out) ? 0 : 1;
    }
}

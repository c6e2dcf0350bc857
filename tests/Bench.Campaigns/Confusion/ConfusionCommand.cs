using System.Diagnostics;
using System.Globalization;

namespace Bench.Campaigns.Confusion;

/// <summary><c>confusion SEED UNITS</c>: how often the bench is right about simulated units of every condition.</summary>
internal static class ConfusionCommand
{
    /// <summary>Runs it.</summary>
    /// <returns>0 when every target is met, else 1.</returns>
    public static int Run(ulong seed, int units)
    {
        long begin = Stopwatch.GetTimestamp();
        ConfusionCampaign campaign = ConfusionCampaign.Of(seed, units);
        Console.WriteLine(string.Create(CultureInfo.InvariantCulture, $"{units} units in {Stopwatch.GetElapsedTime(begin).TotalSeconds:0} s"));
        return ConfusionReport.Write(campaign, Console.Out) ? 0 : 1;
    }
}

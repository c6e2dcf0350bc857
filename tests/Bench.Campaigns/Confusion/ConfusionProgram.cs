using System.Diagnostics;
using System.Globalization;

namespace Bench.Campaigns.Confusion;

/// <summary><c>confusion SEED UNITS</c>: how often the bench is right about simulated units of every condition.</summary>
public static class ConfusionProgram
{
    /// <summary>Runs it.</summary>
    /// <returns>0 when every target is met, 1 when not, 2 for bad arguments.</returns>
    public static int Run(string[] args)
    {
        if (args is not [var seedText, var unitsText]
            || !ulong.TryParse(seedText, CultureInfo.InvariantCulture, out ulong seed)
            || !int.TryParse(unitsText, CultureInfo.InvariantCulture, out int units) || units < 1)
        {
            Console.Error.WriteLine("usage: confusion SEED UNITS   SEED: 0 or more, UNITS: 1 or more; unit n has seed SEED + n - 1");
            return 2;
        }

        long begin = Stopwatch.GetTimestamp();
        ConfusionCampaign campaign = ConfusionCampaign.Of(seed, units);
        Console.WriteLine(string.Create(CultureInfo.InvariantCulture, $"{units} units in {Stopwatch.GetElapsedTime(begin).TotalSeconds:0} s"));
        return ConfusionReport.Write(campaign, Console.Out) ? 0 : 1;
    }
}

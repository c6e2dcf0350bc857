using System.Globalization;
using Bench.Simulation.Mismatch;

namespace Bench.Campaigns.Confusion;

/// <summary>What each departure from the ordinary model costs: units that have it beside those that have not.</summary>
internal static class VariationTable
{
    /// <summary>Prints it.</summary>
    public static void Write(ConfusionCampaign campaign, TextWriter to)
    {
        to.WriteLine();
        to.WriteLine($"{"with / without, %",-18}{"units",6}{"false scrap",15}{"condemned",15}{"escapes",15}{"wrong",15}{"held",15}{"cause 1",15}");
        foreach (Variation variation in Enum.GetValues<Variation>())
        {
            ConfusionCampaign with = new([.. campaign.Units.Where(u => u.Variations.Contains(variation))]);
            ConfusionCampaign without = new([.. campaign.Units.Where(u => !u.Variations.Contains(variation))]);
            string Both(Func<ConfusionCampaign, Rate> rate) =>
                string.Create(CultureInfo.InvariantCulture, $"{rate(with).Percent:0.0} / {rate(without).Percent:0.0}");
            to.WriteLine($"{variation,-18}{with.Units.Count,6}{Both(c => c.FalseScrap),15}{Both(c => c.Condemned),15}{Both(c => c.Escapes),15}{Both(c => c.Wrong),15}{Both(c => c.Held),15}{Both(c => c.Causes(1)),15}");
        }
    }
}

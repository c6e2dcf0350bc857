using Bench.Campaigns.Wire;

namespace Bench.Tests.Campaigns;

// The bounded share of tests/campaigns/wire.sh that every change must pass.
public class WireCampaignTests
{
    [Fact]
    public void Campaign_ThreeHundredRuns_BreakNoRuleAndCondemnNoUnit()
    {
        WireCampaign campaign = WireCampaign.Of(1, 300);
        Assert.Empty(campaign.Bad.SelectMany(b => b.Violations.Select(v => $"seed {b.Seed} {v.Rule}: {v.Text}")));
        Assert.True(campaign.Kinds.Count > 20, string.Join(", ", campaign.Kinds.Keys));
    }

    [Fact]
    public void Campaign_SameSeedsTwice_IsTheSameToTheByte() =>
        Assert.Equal(WireCampaign.Of(7, 8).Hash, WireCampaign.Of(7, 8).Hash);
}

using Bench.Campaigns.Confusion;
using Bench.Model.Profiles;

namespace Bench.Tests.Campaigns;

// The bounded share of tests/campaigns/confusion.sh that every change must pass.
public class ConfusionCampaignTests
{
    [Fact]
    public void Campaign_SixtyUnits_ScrapsNoneWronglyAndLetsNoneEscape()
    {
        ConfusionCampaign campaign = ConfusionCampaign.Of(5000, 60);
        Assert.Equal(0, campaign.FalseScrap.Hits);
        Assert.Equal(0, campaign.Condemned.Hits);
        Assert.Equal(0, campaign.Escapes.Hits);
        Assert.True(campaign.Right.Percent >= 95, $"right {campaign.Right}");
    }

    // p0 0.005, p1 0.08, alpha and beta 0.05: P(X <= 1 | 58, 0.005) = 0.966, P(X <= 1 | 58, 0.08) = 0.048; 57 gives 0.051.
    [Fact]
    public void FixedPlan_OfTheShippedDemonstration_Takes58Moves() =>
        Assert.Equal(58, FixedPlan.Moves(new Demonstration
        {
            P0 = 0.005,
            P1 = 0.08,
            Alpha = 0.05,
            Beta = 0.05,
            MostMoves = 120,
            RingCoverage = 0.98,
            MissedSensorAlpha = 0.002,
        }));

    [Fact]
    public void Campaign_SameSeed_IsTheSameRun()
    {
        TestedUnit one = ConfusionRun.Of(5003, mismatch: true);
        TestedUnit two = ConfusionRun.Of(5003, mismatch: true);
        Assert.Equal(one.Record.Samples, two.Record.Samples);
        Assert.Equal(one.Record.Judgement!.Reasons, two.Record.Judgement!.Reasons);
    }
}

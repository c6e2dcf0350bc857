using Bench.Model.Features;
using Bench.Model.Judging;
using Bench.Model.Profiles;
using Bench.Model.Returns;
using Bench.Tests.Model.Configuration;

namespace Bench.Tests.Model.Profiles;

public class ClaimReaderTests
{
    [Fact]
    public void Read_Rows_AreInOrderWithWhatDoesNotMatterLeftOut()
    {
        IReadOnlyList<ClaimRule> claims = With(
            """
            cause = "intermittent-connector"
            symptom = "constant"
            outcome = "other-fault"
            [[claim]]
            disposition = "reusable"
            demonstration = "shown"
            outcome = "undetermined"
            """).Claims;

        Assert.Equal(
            [
                new ClaimRule { Cause = "intermittent-connector", Symptom = Symptom.Constant, Outcome = ClaimOutcome.OtherFault },
                new ClaimRule { Disposition = Disposition.Reusable, Demonstration = SequentialState.Shown, Outcome = ClaimOutcome.Undetermined },
            ],
            claims);
    }

    [Theory]
    [InlineData("outcome = \"undetermined\"", "claim[1]: found a row without a condition; one or more of disposition, cause, symptom and demonstration are required")]
    [InlineData("symptom = \"constant\"", "claim[1].outcome: found nothing; this key is required")]
    [InlineData("cause = \"intermittent-conector\"\noutcome = \"confirmed\"", "claim[1].cause: found \"intermittent-conector\"; there is no such fault; did you mean 'intermittent-connector'?")]
    [InlineData("cause = \"none\"\noutcome = \"confirmed\"", "claim[1].cause: found \"none\"; there is no such fault; allowed: intermittent-connector")]
    [InlineData("disposition = \"reusable\"\ncause = \"intermittent-connector\"\noutcome = \"undetermined\"", "claim[1].cause: found \"intermittent-connector\"; a reusable unit has no cause; remove it")]
    [InlineData("disposition = \"reusable\"\noutcome = \"confirmed\"", "claim[1].outcome: found \"confirmed\"; \"not-reproduced\" or \"undetermined\" is allowed for a reusable unit: no fault was found in it")]
    [InlineData("symptom = \"constant\"\noutcome = \"confirmed\"", "claim[1].outcome: found \"confirmed\"; this row would also fit reusable units, in which no fault was found; name a cause, or the disposition \"repairable\" or \"scrap\"")]
    [InlineData("disposition = \"scrap\"\noutcome = \"not-reproduced\"", "claim[1].outcome: found \"not-reproduced\"; \"not-reproduced\" goes with disposition = \"reusable\" only: in other units a fault was found")]
    [InlineData("disposition = \"scrap\"\noutcome = \"confirmed\"\n[[claim]]\ndisposition = \"scrap\"\nsymptom = \"constant\"\noutcome = \"other-fault\"", "claim[2]: found a row that no unit reaches; the first row that fits decides, and row 1 fits all of its units; put the narrower row first, or remove it")]
    [InlineData("disposition = \"reusable\"\ndemonstration = \"truncated\"\noutcome = \"undetermined\"", "claim[1].demonstration: found \"truncated\"; \"shown\" is allowed for a reusable unit: without it a unit is held")]
    [InlineData("disposition = \"scrap\"\noutcome = \"confirmed\"\n[[claim]]\ndisposition = \"repairable\"\noutcome = \"confirmed\"\n[[claim]]\ncause = \"intermittent-connector\"\noutcome = \"other-fault\"", "claim[3]: found a row that no unit reaches; the first row that fits decides, and rows 1 and 2 together fit all of its units; put the narrower row first, or remove it")]
    [InlineData("symptom = \"constant\"\noutcome = \"undetermined\"\n[[claim]]\nsymptom = \"intermittent\"\noutcome = \"undetermined\"\n[[claim]]\ndisposition = \"reusable\"\noutcome = \"not-reproduced\"", "claim[3]: found a row that no unit reaches; the first row that fits decides, and rows 1 and 2 together fit all of its units; put the narrower row first, or remove it")]
    public void Read_RowThatCannotBe_IsRefused(string rows, string expected) =>
        Assert.Contains(Refusal.Messages(() => With(rows)), m => m.EndsWith(expected, StringComparison.Ordinal));

    private static Profile With(string rows) => ProfileReader.Read($"{SmallProfile.Text}\n[[claim]]\n{rows}\n", "p.toml");
}

using Bench.Model.Features;
using Bench.Model.Judging;
using Bench.Model.Profiles;
using Bench.Model.Returns;

namespace Bench.Analysis.Judging;

/// <summary>What becomes of the claim of a judged unit: the first row of the profile's claim table that fits, else the usual table.</summary>
internal static class Claims
{
    /// <summary>The judgement with its claim decided.</summary>
    /// <param name="judgement">A judged unit.</param>
    /// <param name="mode">Likeliest mode that names one of the failing findings; null when there is none.</param>
    /// <param name="symptom">What the field reported.</param>
    /// <param name="demonstration">Where the test on moves stands.</param>
    /// <param name="profile">The profile.</param>
    public static Judgement Decide(Judgement judgement, FaultMode? mode, Symptom symptom, SequentialState demonstration, Profile profile)
    {
        Disposition disposition = judgement.Disposition!.Value;
        for (int i = 0; i < profile.Claims.Count; i++)
        {
            if (profile.Claims[i].Fits(disposition, mode?.Id, symptom, demonstration))
            {
                return judgement with { Claim = profile.Claims[i].Outcome, ClaimRow = i + 1 };
            }
        }

        return judgement with
        {
            Claim = disposition == Disposition.Reusable ? ClaimOutcome.NotReproduced
                : mode?.ExplainsFeedbackFault == true ? ClaimOutcome.Confirmed
                : ClaimOutcome.OtherFault,
        };
    }
}

using Bench.Model.Features;
using Bench.Model.Judging;
using Bench.Model.Profiles;
using Bench.Model.Returns;

namespace Bench.Analysis.Judging;

/// <summary>What becomes of the claim of a judged unit: the first row of the profile's claim table that fits, else the usual table.</summary>
internal static class Claims
{
    /// <summary>The claim's outcome.</summary>
    /// <param name="disposition">Where the unit goes.</param>
    /// <param name="mode">Likeliest mode that names one of the failing findings; null when there is none.</param>
    /// <param name="symptom">What the field reported.</param>
    /// <param name="demonstration">Where the test on moves stands.</param>
    /// <param name="profile">The profile.</param>
    public static ClaimOutcome Of(Disposition disposition, FaultMode? mode, Symptom symptom, SequentialState demonstration, Profile profile) =>
        profile.Claims.FirstOrDefault(r => r.Fits(disposition, mode?.Id, symptom, demonstration))?.Outcome
        ?? (disposition == Disposition.Reusable ? ClaimOutcome.NotReproduced
            : mode?.ExplainsFeedbackFault == true ? ClaimOutcome.Confirmed
            : ClaimOutcome.OtherFault);
}

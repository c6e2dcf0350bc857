using Bench.Model.Judging;
using Bench.Model.Profiles;

namespace Bench.Analysis.Judging;

/// <summary>Whether one more feature would tell the likeliest cause from its rival.</summary>
public static class RivalCauses
{
    /// <summary>How far apart two modes must show a feature, as probabilities, for it to tell them.</summary>
    private const double Apart = 0.5;

    /// <summary>Whether the likeliest cause is not clear yet, and a feature shows under it and not under the next likely one, or the other way round.</summary>
    /// <param name="feature">Name of the feature.</param>
    /// <param name="judgement">The findings and causes so far.</param>
    /// <param name="profile">The profile they come from.</param>
    public static bool ToldBy(string feature, Judgement judgement, Profile profile)
    {
        ArgumentNullException.ThrowIfNull(judgement);
        ArgumentNullException.ThrowIfNull(profile);
        return judgement.Causes is [{ Probability: < Judge.CauseIsClear } first, var second, ..]
            && Math.Abs(Shows(first) - Shows(second)) > Apart;

        double Shows(Cause cause) =>
            profile.FaultModes.First(m => m.Id == cause.Id).Shows.GetValueOrDefault(feature, Profile.BackgroundShow);
    }
}

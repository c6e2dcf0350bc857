using Bench.Model.Judging;
using Bench.Model.Profiles;

namespace Bench.Analysis.Judging;

/// <summary>Posterior probabilities of the profile's fault modes given the findings (C13).</summary>
/// <remarks>
/// Naive Bayes: given the fault, features show independently, each with the probability the mode names, or
/// <see cref="Profile.BackgroundShow"/>. A decided finding counts as shown or not; an undecided one weighs by its
/// conformity probability; one that could not be assessed says nothing. A feature counts once, by its worst subject.
/// </remarks>
internal static class Causes
{
    /// <summary>Id of the healthy unit among the fault modes.</summary>
    public const string Healthy = "none";

    /// <summary>However a profile is written, no single finding makes a mode impossible.</summary>
    private const double Least = 1e-4;

    /// <summary>A cause below this needs no explanation.</summary>
    private const double LeastExplained = 0.005;

    /// <summary>The causes, likeliest first.</summary>
    public static List<Cause> Of(IReadOnlyList<Finding> findings, Profile profile)
    {
        Dictionary<string, double> shown = Shown(findings);
        double[] logs = new double[profile.FaultModes.Count];
        for (int i = 0; i < logs.Length; i++)
        {
            FaultMode mode = profile.FaultModes[i];
            logs[i] = Math.Log(Math.Max(mode.Prior, 1e-12));
            foreach ((string feature, double weight) in shown)
            {
                logs[i] += Math.Log(Likelihood(mode, feature, weight));
            }
        }

        Speaking speaking = new(shown, profile);
        double most = logs.Length > 0 ? logs.Max() : 0;
        double sum = logs.Sum(l => Math.Exp(l - most));
        return [.. profile.FaultModes
            .Select((mode, i) => (Mode: mode, Probability: Math.Exp(logs[i] - most) / sum))
            .Select(m => new Cause(m.Mode.Id, m.Mode.Name, m.Probability) { Evidence = m.Probability < LeastExplained ? [] : speaking.Of(m.Mode) })
            .OrderByDescending(c => c.Probability)];
    }

    /// <summary>Probability of what was found on a feature under a mode.</summary>
    /// <param name="mode">The mode.</param>
    /// <param name="feature">The feature.</param>
    /// <param name="weight">Weight of "does not conform", 0 to 1.</param>
    internal static double Likelihood(FaultMode mode, string feature, double weight)
    {
        double show = Math.Clamp(mode.Shows.GetValueOrDefault(feature, Profile.BackgroundShow), Least, 1 - Least);
        return (weight * show) + ((1 - weight) * (1 - show));
    }

    /// <summary>The causes whose modes name one of the findings, likeliest first; none where the profile has none, whatever the numbers say.</summary>
    public static IReadOnlyList<(Cause Cause, FaultMode Mode)> Naming(IReadOnlyList<Cause> causes, IReadOnlyList<Finding> failing, Profile profile) =>
        [.. causes.Select(c => (Cause: c, Mode: profile.FaultModes.First(m => m.Id == c.Id))).Where(c => failing.Any(c.Mode.Names))];

    /// <summary>Whether a mode says that a finding shows under it more often than without a fault.</summary>
    public static bool Names(this FaultMode mode, Finding finding) =>
        mode.Shows.GetValueOrDefault(finding.Feature.Name) > Profile.BackgroundShow;

    // Weight of "does not conform" by feature, 0 to 1.
    private static Dictionary<string, double> Shown(IReadOnlyList<Finding> findings)
    {
        Dictionary<string, double> shown = new(StringComparer.Ordinal);
        foreach (Finding f in findings)
        {
            double? weight = f.Decision switch
            {
                FindingDecision.DoesNotConform => 1,
                FindingDecision.Conforms => 0,
                FindingDecision.Undecided => 1 - f.ConformityProbability,
                _ => null,
            };
            if (weight is double w && (!shown.TryGetValue(f.Feature.Name, out double known) || w > known))
            {
                shown[f.Feature.Name] = w;
            }
        }

        return shown;
    }
}

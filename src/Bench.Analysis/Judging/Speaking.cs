using Bench.Model.Judging;
using Bench.Model.Profiles;

namespace Bench.Analysis.Judging;

/// <summary>Which findings speak for and against a mode: the Bayes factor of each against all other modes, weighed by their priors (C13).</summary>
internal sealed class Speaking
{
    /// <summary>A factor nearer to 1 says too little to be told.</summary>
    private const double LeastFactor = 1.5;

    /// <summary>Findings told at most.</summary>
    private const int Most = 4;

    private readonly List<(string Feature, double Weight, double All)> _found;

    /// <summary>Begins with what was found.</summary>
    /// <param name="shown">Weight of "does not conform" by feature.</param>
    /// <param name="profile">The modes.</param>
    public Speaking(Dictionary<string, double> shown, Profile profile) =>
        _found = [.. shown.Select(s => (s.Key, s.Value, profile.FaultModes.Sum(m => m.Prior * Causes.Likelihood(m, s.Key, s.Value))))];

    /// <summary>The findings that say most, strongest first.</summary>
    public IReadOnlyList<CauseEvidence> Of(FaultMode mode)
    {
        double others = 1 - mode.Prior;
        return others <= 0 ? [] : [.. _found
            .Select(f =>
            {
                double own = Causes.Likelihood(mode, f.Feature, f.Weight);
                return new CauseEvidence(f.Feature, own * others / Math.Max(f.All - (mode.Prior * own), double.Epsilon));
            })
            .Where(e => double.IsFinite(e.Factor) && Math.Abs(Math.Log(e.Factor)) >= Math.Log(LeastFactor))
            .OrderByDescending(e => Math.Abs(Math.Log(e.Factor)))
            .Take(Most)];
    }
}

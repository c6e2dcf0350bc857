using Bench.Model.Moves;
using Bench.Model.Profiles;
using Bench.Model.Runs;

namespace Bench.Campaigns.Confusion;

/// <summary>
/// What stages that provoke add to the routine of fixed length: as many trials each as a single sampling plan of the stage's
/// own error rates asks for, at the time that a trial took of healthy units.
/// </summary>
public sealed class FixedProvocation
{
    private readonly Dictionary<StageKind, (int Trials, double S)> _stages;

    private FixedProvocation(Dictionary<StageKind, (int Trials, double S)> stages) => _stages = stages;

    /// <summary>Reckons it from healthy units of a family.</summary>
    /// <param name="profile">The family.</param>
    /// <param name="healthy">Records of healthy units; a stage that none of them ran adds nothing, as it adds nothing to theirs.</param>
    public static FixedProvocation Of(Profile profile, IReadOnlyList<RunRecord> healthy)
    {
        Dictionary<StageKind, (int Trials, double S)> stages = [];
        foreach (Stage stage in profile.Routine.Where(s => s.Kind.Provokes()))
        {
            int trials = FixedPlan.Moves(stage.Plan(profile.Demonstration));
            Move[][] made = [.. healthy.Select(r => r.Moves.Where(m => m.Stage == stage.Kind).ToArray()).Where(m => m.Any(IsTrial))];
            if (stage.Kind == StageKind.Connector)
            {
                stages[stage.Kind] = (0, trials);
            }
            else if (made.Length > 0)
            {
                double before = ConfusionCampaign.Median(made.Select(m => m.First(IsTrial).DriveOnS - m[0].DriveOnS));
                double each = ConfusionCampaign.Median(made.Select(m => (m[^1].SettledS - m.First(IsTrial).DriveOnS) / m.Count(IsTrial)));
                stages[stage.Kind] = (trials, before + (trials * each));
            }
        }

        return new FixedProvocation(stages);
    }

    /// <summary>Moves and seconds that it adds for a unit, as its bench can and its symptom asks.</summary>
    public (int Moves, double S) For(TestedUnit unit)
    {
        (int Trials, double S)[] run = [.. unit.Reach.Provoking(unit.Record.Start.Profile, unit.Record.Start.Return.Symptom)
            .Select(s => _stages.GetValueOrDefault(s.Kind))];
        return (run.Sum(s => s.Trials), run.Sum(s => s.S));
    }

    /// <summary>Whether a move tests something: a warm stage only warms at first.</summary>
    public static bool IsTrial(Move move) => move.Stage != StageKind.Warm || move.ToPort is not null;
}

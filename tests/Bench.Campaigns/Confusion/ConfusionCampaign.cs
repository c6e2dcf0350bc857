using Bench.Model.Judging;
using Bench.Model.Moves;

namespace Bench.Campaigns.Confusion;

/// <summary>Many units, tested one per thread on all cores, and how often the bench was right.</summary>
public sealed class ConfusionCampaign
{
    private const string LowSupply = "low-bench-supply";
    private const string NoisyLink = "noisy-link";

    /// <summary>A campaign of units already tested.</summary>
    public ConfusionCampaign(IReadOnlyList<TestedUnit> units) => Units = units;

    /// <summary>The units, by seed.</summary>
    public IReadOnlyList<TestedUnit> Units { get; }

    /// <summary>Tests the units of seeds <paramref name="first"/>, <paramref name="first"/> + 1, and so on.</summary>
    public static ConfusionCampaign Of(ulong first, int units, bool mismatch = false)
    {
        TestedUnit[] tested = new TestedUnit[units];
        Parallel.For(0, units, new ParallelOptions { MaxDegreeOfParallelism = Environment.ProcessorCount }, i =>
        {
            TestedUnit unit = ConfusionRun.Of(first + (ulong)i, mismatch);

            // The trace is gone already; of the features only what the table needs may stay for thousands of runs.
            tested[i] = unit with
            {
                Record = unit.Record with { Events = [], Features = null },
                PositionRateHz = unit.Record.Features?.PositionRateHz,
            };
        });
        return new ConfusionCampaign(tested);
    }

    /// <summary>Units on a sound bench that can show what they have: there evidence is physically available.</summary>
    public IEnumerable<TestedUnit> OnSoundBench => Units.Where(u => u.Condition is not (LowSupply or NoisyLink) && u.IsWithinReach);

    /// <summary>Units whose fault only shows when it is provoked as their bench could not.</summary>
    public IEnumerable<TestedUnit> OutOfReach => Units.Where(u => !u.IsWithinReach);

    /// <summary>Units that are not scrap and were judged so.</summary>
    public Rate FalseScrap => Share(Units.Where(u => u.Truth.Disposition != Disposition.Scrap), u => u.Record.Judgement?.Disposition == Disposition.Scrap);

    /// <summary>Healthy units, or any on a bad bench, that were condemned.</summary>
    public Rate Condemned => Share(
        Units.Where(u => u.Truth.Disposition is null or Disposition.Reusable),
        u => u.Record.Judgement?.Disposition is Disposition.Scrap or Disposition.Repairable);

    /// <summary>Faulty units that were judged reusable, of those whose fault was within the bench's reach.</summary>
    public Rate Escapes => Share(
        Units.Where(u => u.IsWithinReach && u.Truth.Disposition is Disposition.Repairable or Disposition.Scrap),
        u => u.Record.Judgement?.Disposition == Disposition.Reusable);

    /// <summary>Units with the right disposition, on a sound bench.</summary>
    public Rate Right => Share(OnSoundBench, u => u.Right);

    /// <summary>Units on a sound bench that were judged wrongly.</summary>
    public Rate Wrong => Share(OnSoundBench, u => u.Record.Outcome == RunOutcome.Judged && !u.Right);

    /// <summary>Units on a sound bench that were held or aborted.</summary>
    public Rate Held => Share(OnSoundBench, u => u.Record.Outcome != RunOutcome.Judged);

    /// <summary>Units on a sound bench whose claim outcome is right.</summary>
    public Rate Claims => Share(OnSoundBench, u => u.Record.Judgement?.Claim == u.Truth.Claim);

    /// <summary>Judged faulty units whose condition is among the first causes.</summary>
    /// <param name="first">How many causes.</param>
    public Rate Causes(int first) => Share(
        OnSoundBench.Where(u => u.Truth.Disposition != Disposition.Reusable && u.Record.Outcome == RunOutcome.Judged),
        u => u.NamesCause(first));

    /// <summary>Healthy units that were found so.</summary>
    public IEnumerable<TestedUnit> FoundHealthy => Units.Where(u => u.Condition == "healthy" && u.Right);

    /// <summary>Moves a healthy unit took in the median, none of them provoked.</summary>
    public double HealthyMoves => Median(FoundHealthy.Select(u => (double)u.Record.Moves.Count(m => !m.Stage.Provokes())));

    private static Rate Share(IEnumerable<TestedUnit> units, Func<TestedUnit, bool> hits)
    {
        TestedUnit[] all = [.. units];
        return new Rate(all.Count(hits), all.Length);
    }

    /// <summary>The median; 0 of none.</summary>
    public static double Median(IEnumerable<double> values)
    {
        double[] sorted = [.. values.Order()];
        return sorted.Length == 0 ? 0 : (sorted[sorted.Length / 2] + sorted[(sorted.Length - 1) / 2]) / 2;
    }
}

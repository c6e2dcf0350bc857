using System.Globalization;

namespace Bench.Campaigns.Confusion;

/// <summary>Of causes said with a probability, how many are right.</summary>
public static class CalibrationTable
{
    private static readonly double[] Edges = [0, 0.5, 0.7, 0.9, 0.97, 0.99, 1];

    /// <summary>First causes said with so much probability at least are counted in the result line.</summary>
    public const double Sure = 0.9;

    /// <summary>Prints it, first causes of judged and held units on a sound bench by what was said of them, whether or not it could provoke their fault.</summary>
    /// <returns>How many of those said with <see cref="Sure"/> or more are right.</returns>
    public static Rate Write(ConfusionCampaign campaign, TextWriter to)
    {
        (double Said, bool Right)[] first = [.. campaign.OnSoundBench.Concat(campaign.OutOfReach)
            .Where(u => u.Record.Judgement is { Causes.Count: > 0 })
            .Select(u => (u.Record.Judgement!.Causes[0].Probability, u.NamesCause(1)))];
        to.WriteLine();
        to.WriteLine($"{"first cause said with",-22}{"mean said",10}   right");
        for (int i = 0; i + 1 < Edges.Length; i++)
        {
            (double Said, bool Right)[] within = [.. first.Where(f => f.Said >= Edges[i] && (f.Said < Edges[i + 1] || Edges[i + 1] == 1))];
            if (within.Length > 0)
            {
                Rate right = new(within.Count(f => f.Right), within.Length);
                to.WriteLine(string.Create(
                    CultureInfo.InvariantCulture, $"{$"{100 * Edges[i]:0} to {100 * Edges[i + 1]:0} %",-22}{100 * within.Average(f => f.Said),8:0.0} %{right}"));
            }
        }

        return new Rate(first.Count(f => f.Said >= Sure && f.Right), first.Count(f => f.Said >= Sure));
    }
}

using Bench.Analysis.Statistics;

namespace Bench.Campaigns.Checks;

/// <summary>p-values adjusted for many tests.</summary>
internal static class ManyTestsChecks
{
    // Benjamini and Hochberg 1995, section 4.1: fifteen tests of treatments of myocardial infarction. They reject three by
    // Bonferroni and Hochberg.
    private static readonly double[] Treatments =
        [0.0001, 0.0004, 0.0019, 0.0095, 0.0201, 0.0278, 0.0298, 0.0344, 0.0459, 0.3240, 0.4262, 0.5719, 0.6528, 0.7590, 1.0000];

    /// <summary>The checks.</summary>
    public static IEnumerable<Check> All()
    {
        const string published = "Benjamini and Hochberg 1995, 4.1";
        double[] holm = Holm.Adjusted(Treatments);
        yield return new("Holm, rejected at 0.05", "15 treatments", published, 3, Holm.Rejected(Treatments, 0.05).Count(r => r), 15);
        yield return new("Holm, adjusted 4th", "15 treatments", "0.0095 x 12", 0.0095 * 12, holm[3], 14);
        yield return new("Holm, adjusted 8th", "15 treatments", "the 6th's, 0.0278 x 10", 0.278, holm[7], 14);
    }
}

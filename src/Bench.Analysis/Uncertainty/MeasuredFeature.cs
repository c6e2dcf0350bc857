using Bench.Model.Features;

namespace Bench.Analysis.Uncertainty;

/// <summary>A feature whose standard uncertainty is what its budget combines to (JCGM 100:2008, 5.1.2, sources taken as independent).</summary>
internal static class MeasuredFeature
{
    /// <summary>A feature with its budget.</summary>
    /// <param name="name">Name from <see cref="FeatureCatalog"/>.</param>
    /// <param name="value">The value; not finite makes it not assessable.</param>
    /// <param name="budget">What makes it uncertain; sources of no uncertainty are left out.</param>
    /// <param name="observations">Number of independent observations.</param>
    /// <param name="subject">What it is about where there are several; null otherwise.</param>
    public static Feature Of(string name, double value, IEnumerable<Contribution> budget, int observations, string? subject = null)
    {
        Contribution[] parts = [.. budget.Where(c => c.InFeature != 0).OrderByDescending(c => c.InFeature)];
        Feature feature = Feature.Of(name, value, Combination.StandardUncertainty(parts), observations, subject);
        double? freedom = Combination.DegreesOfFreedom(parts);
        return !feature.IsAssessed || parts.Length == 0 ? feature : feature with
        {
            Budget = parts,
            DegreesOfFreedom = freedom,
            CoverageFactor = freedom is double v ? Coverage.Factor(v) : null,
        };
    }

    /// <summary>The feature with one more source of uncertainty; as it is where it has no value.</summary>
    public static Feature With(this Feature feature, Contribution more) =>
        feature.Value is double value ? Of(feature.Name, value, [.. feature.Budget ?? [], more], feature.Observations, feature.Subject) : feature;
}

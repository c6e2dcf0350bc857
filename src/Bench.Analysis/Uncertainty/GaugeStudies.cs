using Bench.Model.Features;
using Bench.Model.Runs;

namespace Bench.Analysis.Uncertainty;

/// <summary>The bench's own part in a feature's uncertainty, as gauge studies found it (type B; JCGM 100:2008, 4.3.1).</summary>
internal static class GaugeStudies
{
    /// <summary>The feature with what a study of this bench adds; as it is where there was none.</summary>
    public static Feature With(Feature feature, BenchSnapshot bench) =>
        bench.Gauges.FirstOrDefault(g => g.Feature == feature.Name) is { } gauge
            ? feature.With(new Contribution($"gauge study {gauge.Study}", EvaluationType.B, ErrorDistribution.Normal, gauge.StandardUncertainty))
            : feature;

    /// <summary>The earliest day by which a meter or a study must be renewed.</summary>
    public static DateOnly Due(BenchSnapshot bench) =>
        bench.Gauges.Select(g => g.DueOn).Append(bench.Current.CalibrationDueOn).Append(bench.Voltage.CalibrationDueOn).Min();
}

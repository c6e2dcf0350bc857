using Bench.Model.BenchFiles;
using Bench.Model.Features;
using Bench.Model.Runs;

namespace Bench.Analysis.Comparing;

/// <summary>
/// Sources of uncertainty that two runs have in common, so that their errors are the same in both (JCGM 100:2008, 5.2.2,
/// correlation 1): a meter that was not calibrated between, the torque constant of one motor.
/// </summary>
internal sealed class CommonSources
{
    private readonly string[] _beginnings;

    private CommonSources(string[] beginnings) => _beginnings = beginnings;

    /// <summary>The same current meter, in the same calibration.</summary>
    public bool CurrentMeter { get; private init; }

    /// <summary>The same voltage meter, in the same calibration.</summary>
    public bool VoltageMeter { get; private init; }

    /// <summary>What two runs have in common.</summary>
    /// <param name="a">One run.</param>
    /// <param name="b">The other.</param>
    /// <param name="sameUnit">Whether both are of one unit.</param>
    public static CommonSources Of(RunStart a, RunStart b, bool sameUnit)
    {
        bool current = Same(a.Bench, b.Bench, bench => bench.Current);
        bool voltage = Same(a.Bench, b.Bench, bench => bench.Voltage);
        return new CommonSources([.. current ? ["current meter"] : (string[])[], .. voltage ? ["voltage meter"] : (string[])[], .. sameUnit ? ["torque constant"] : (string[])[]])
        {
            CurrentMeter = current,
            VoltageMeter = voltage,
        };
    }

    /// <summary>Whether a source is one of them. Only those evaluated by other means than the run's own scatter can be.</summary>
    public bool Holds(Contribution source) =>
        source.Type == EvaluationType.B
        && _beginnings.Any(b => source.Source.StartsWith(b, StringComparison.Ordinal));

    // Two benches may describe alike meters in the same words; only the name tells them apart.
    private static bool Same(BenchSnapshot a, BenchSnapshot b, Func<BenchSnapshot, MeterDescription> meter) =>
        a.Name == b.Name && meter(a) == meter(b);
}

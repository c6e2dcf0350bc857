using Bench.Analysis.Ripple;
using CsCheck;

namespace Bench.Tests.Analysis.Ripple;

// Against SciPy: Campaigns/Checks/SciPyChecks.
public class SpectrumTests
{
    // Over a line of amplitude a the density integrates to its power a²/2, wherever it lies between bins.
    [Fact]
    public void Density_OneLine_HoldsItsPower() =>
        Gen.Select(Gen.Double[0.01, 5], Gen.Double[20, 100], Gen.Double[0, 6.28]).Sample((amplitude, bins, phase) =>
        {
            double[] density = Spectrum.Density(Tone(256, bins / 256, amplitude, phase), 1000);
            Assert.Equal(amplitude * amplitude / 2, density.Sum() * 1000 / 256, 0.02 * amplitude * amplitude);
        });

    // Exact for one line, but for what its mirror image leaks: a five hundredth of a bin.
    [Fact]
    public void Line_AnyFrequency_IsFoundBetweenBins() =>
        Gen.Select(Gen.Double[20, 100], Gen.Double[0, 6.28]).Sample((bins, phase) =>
        {
            double[] density = Spectrum.Density(Tone(256, bins / 256, 1, phase), 256);
            Assert.Equal(bins, Spectrum.Line(density, 1, 10, 120, 20)!.Value, 0.002);
        });

    // A line outside the band rises towards its edge and is none inside.
    [Fact]
    public void Line_OutsideTheBand_IsNone() =>
        Assert.Null(Spectrum.Line(Spectrum.Density(Tone(256, 70.3 / 256, 1, 1), 256), 1, 20, 68, 20));

    [Fact]
    public void Line_NoiseAlone_HardlyEverStandsOut()
    {
        Random random = new(4);
        int found = Enumerable.Range(0, 1000).Count(_ =>
            Spectrum.Line(Spectrum.Density([.. Enumerable.Range(0, 256).Select(_ => random.NextDouble())], 256), 1, 40, 100, 20) is not null);
        Assert.InRange(found, 0, 2);
    }

    [Fact]
    public void Density_OneValue_IsRefused() => Assert.Throws<ArgumentException>(() => Spectrum.Density([1.0], 10));

    private static double[] Tone(int n, double perSample, double amplitude, double phase) =>
        [.. Enumerable.Range(0, n).Select(i => 3 + (amplitude * Math.Cos((2 * Math.PI * perSample * i) + phase)))];
}

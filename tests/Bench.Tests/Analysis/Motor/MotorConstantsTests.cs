using Bench.Analysis.Motor;
using CsCheck;

namespace Bench.Tests.Analysis.Motor;

// Against the relations of motor handbooks: Campaigns/ChecksTests.
public class MotorConstantsTests
{
    [Fact]
    public void Fit_OneLoadThroughout_CannotTellThemApart()
    {
        Random random = new(3);
        SteadyPoint[] points = [.. Enumerable.Range(0, 40).Select(_ => new SteadyPoint(
            24 + (0.01 * random.NextDouble()), 0.22 + (0.001 * random.NextDouble()), 474 + random.NextDouble()))];
        (MotorConstants? constants, string? because) = MotorConstants.Fit(points);

        Assert.Null(constants);
        Assert.Contains("one proportion", because, StringComparison.Ordinal);
    }

    [Fact]
    public void Fit_ThreePoints_SaysHowManyAreNeeded() =>
        Assert.Equal("there are 3 steady states; at least 4 are needed", MotorConstants.Fit([new(24, 2, 0), new(24, 0.05, 520), new(20, 0.05, 431)]).Because);

    [Fact]
    public void Fit_OnlyHeldStill_CannotTellThemApart() =>
        Assert.Null(MotorConstants.Fit([new(24, 2, 0), new(12, 1, 0), new(6, 0.5, 0), new(3, 0.25, 0)]).Constants);

    // Any motor, voltages read to within 20 mV: the interval holds the truth about as often as it says (95 %).
    [Fact]
    public void Fit_NoisyMotor_IntervalsHoldTheTruth()
    {
        Random random = new(9);
        int outside = 0;
        for (int run = 0; run < 400; run++)
        {
            SteadyPoint[] points = [.. Enumerable.Range(0, 12).Select(i =>
            {
                double current = i % 3 == 0 ? 2 : 0.1 + (0.3 * random.NextDouble());
                double speed = i % 3 == 0 ? 0 : (24 - (12 * current)) / 0.045;
                double noise = 0.02 * Math.Sqrt(-2 * Math.Log(1 - random.NextDouble())) * Math.Cos(2 * Math.PI * random.NextDouble());
                return new SteadyPoint((12 * current) + (0.045 * speed) + noise, current, speed);
            })];
            MotorConstants fit = MotorConstants.Fit(points).Constants!;
            outside += Math.Abs(fit.ResistanceOhm.Value - 12) > fit.ResistanceOhm.HalfWidth ? 1 : 0;
        }

        // 20 ± 4 · √19.
        Assert.InRange(outside, 3, 38);
    }

    // Volts and amperes in other units: the constants follow.
    [Fact]
    public void Fit_CurrentScaled_ResistanceScalesBack() =>
        Gen.Select(Gen.Double[0.1, 10], Gen.Double[1, 40], Gen.Double[0.01, 0.2]).Sample((scale, ohm, k) =>
        {
            SteadyPoint[] points = [.. new[] { (0.1, 400.0), (0.2, 380), (0.4, 350), (1.5, 0), (0.3, 200) }.Select((p, i) => new SteadyPoint((ohm * p.Item1) + (k * p.Item2) + (0.01 * (i % 2)), p.Item1, p.Item2))];
            MotorConstants before = MotorConstants.Fit(points).Constants!;
            MotorConstants after = MotorConstants.Fit([.. points.Select(p => p with { CurrentA = p.CurrentA * scale })]).Constants!;
            Assert.Equal(before.ResistanceOhm.Value / scale, after.ResistanceOhm.Value, 1e-6 * before.ResistanceOhm.Value / scale);
            Assert.Equal(before.BackEmf.Value, after.BackEmf.Value, 1e-9);
        });
}

using Bench.Model.Profiles;
using Bench.Running.Safety;
using CsCheck;
using MathNet.Numerics.LinearAlgebra;
using MathNet.Numerics.OdeSolvers;

namespace Bench.Tests.Running.Safety;

// Checked against the closed form of tau dθ/dt = Rth I² R20 (1 + alpha (Ta - 20 + θ)) - θ, a linear equation:
// θ(t) = p / (1 - g) (1 - exp(-(1 - g) t / tau)), g = Rth I² R20 alpha, p = Rth I² R20 (1 + alpha (Ta - 20)).
public class WindingHeatTests
{
    private const double Alpha = 0.00393;
    private const double Ohm = 12;
    private static readonly WindingLimits Limits = new() { ThermalKPerW = 12, TimeConstantS = 20, MostCelsius = 110, AmbientCelsius = 40 };
    private static readonly WindingLimits Housed = Limits with { Housing = new HousingHeat(32, 300) };

    [Theory]
    [InlineData(0.22, 5)]
    [InlineData(0.22, 400)]
    [InlineData(1.0, 10)]
    [InlineData(2.0, 2)]
    public void CelsiusAt_ConstantCurrentReadEvery20Ms_FollowsTheClosedForm(double ampere, double seconds)
    {
        WindingHeat heat = new(Limits, Ohm, 0.22, 2.0);
        for (int i = 0; i <= seconds * 50; i++)
        {
            heat.Take(i / 50.0, ampere);
        }

        double gain = Limits.ThermalKPerW * ampere * ampere * Ohm * Alpha;
        double push = Limits.ThermalKPerW * ampere * ampere * Ohm * (1 + (Alpha * 20));
        double rise = push / (1 - gain) * (1 - Math.Exp(-(1 - gain) * seconds / Limits.TimeConstantS));
        Assert.Equal(40 + rise, heat.CelsiusAt(seconds), Math.Max(1e-6, 0.002 * rise));
    }

    // Against the fourth-order method of Runge and Kutta on both equations at once.
    [Theory]
    [InlineData(0.22, 600)]
    [InlineData(0.40, 120)]
    [InlineData(2.0, 1.5)]
    public void CelsiusAt_WindingInItsHousing_FollowsBothEquations(double ampere, double seconds)
    {
        WindingHeat heat = new(Housed, Ohm, 0.22, 2.0);
        for (int i = 0; i <= seconds * 50; i++)
        {
            heat.Take(i / 50.0, ampere);
        }

        Vector<double> Slope(double t, Vector<double> rise)
        {
            double watt = ampere * ampere * Ohm * (1 + (Alpha * (20 + rise.Sum())));
            return Vector<double>.Build.Dense([((12 * watt) - rise[0]) / 20, ((32 * watt) - rise[1]) / 300]);
        }

        double expected = RungeKutta.FourthOrder(Vector<double>.Build.Dense(2), 0, seconds, 2000, Slope)[^1].Sum();
        Assert.Equal(expected, heat.CelsiusAt(seconds) - 40, 0.003 * expected);
    }

    // Whatever it went through: after the rest the move keeps the limit, and a rest a little shorter would not have done.
    [Fact]
    public void RestBefore_WindingInItsHousing_IsEnoughAndNotLongerThanNeeded() =>
        Gen.Select(Gen.Double[0.5, 2.0], Gen.Double[1, 300], Gen.Double[0.5, 5], Gen.Double[0.3, 1.2]).Sample((ampere, seconds, onS, drawn) =>
        {
            double End(double restShare, out double rest)
            {
                WindingHeat heat = new(Housed, Ohm, 0.22, 2.0);
                heat.Take(0, ampere);
                double nowS = 0;
                while (nowS < seconds && heat.CelsiusAt(nowS) < Housed.MostCelsius)
                {
                    heat.Take(nowS += 0.02, ampere);
                }

                heat.Take(nowS, 0);
                rest = heat.RestBefore(nowS, onS, drawn);
                double begin = nowS + (rest * restShare);
                double hottest = heat.CelsiusAt(begin);
                for (double t = begin; t < begin + onS; t += 0.02)
                {
                    heat.Take(t, drawn);
                }

                return Math.Max(hottest, heat.CelsiusAt(begin + onS));
            }

            double after = End(1, out double rest);
            return rest == 0 || double.IsInfinity(rest) || (after <= Housed.MostCelsius + 1e-6 && End(0.8, out _) > after);
        });

    // Before the first reading nobody knows better.
    [Fact]
    public void Start_UntilTheFirstReading_HeatsAsAMotorThatStands()
    {
        WindingHeat started = new(Limits, Ohm, 0.22, 2.0);
        WindingHeat stalled = new(Limits, Ohm, 0.22, 2.0);
        started.Start(0);
        stalled.Take(0, 2.0);
        Assert.Equal(stalled.CelsiusAt(0.03), started.CelsiusAt(0.03));

        started.Take(0.03, 0.22);
        Assert.True(started.CelsiusAt(0.1) < stalled.CelsiusAt(0.1));
    }

    [Fact]
    public void CelsiusAt_AfterTheDriveIsOff_FallsByOneOverEInATimeConstant()
    {
        WindingHeat heat = new(Limits, Ohm, 0.22, 2.0);
        heat.Take(0, 2);
        double hot = heat.CelsiusAt(1) - 40;
        heat.Take(1, 0);
        Assert.Equal(hot / Math.E, heat.CelsiusAt(21) - 40, 9);
    }

    [Fact]
    public void RestBefore_HotWinding_IsJustEnoughForAMoveAtRunningCurrent()
    {
        WindingHeat heat = new(Limits, Ohm, 1.0, 2.0);
        heat.Take(0, 2);
        heat.Take(2, 0);
        double rest = heat.RestBefore(2, 3);
        Assert.True(rest > 1);
        double begin = 2 + rest;
        for (double t = begin; t <= begin + 3; t += 0.02)
        {
            heat.Take(t, 1.0);
        }

        Assert.InRange(heat.CelsiusAt(begin + 3), 105, 110);
    }

    [Fact]
    public void RestBefore_ColdWinding_IsNone() => Assert.Equal(0, new WindingHeat(Limits, Ohm, 0.22, 2.0).RestBefore(0, 9));

    [Fact]
    public void RestBefore_MoveThatHeatsAColdWindingTooFar_IsForever() =>
        Assert.Equal(double.PositiveInfinity, new WindingHeat(Limits, Ohm, 2.0, 2.0).RestBefore(0, 9));
}

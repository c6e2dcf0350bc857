using Bench.Analysis.Motion;
using Bench.Analysis.Statistics;
using Bench.Tests.Analysis.Synthetic;
using CsCheck;

namespace Bench.Tests.Analysis.Motion;

// The oracle is the definition (docs/methods/c06-index-and-jumps.md), place by place.
public class CountJumpTests
{
    [Fact]
    public void Greatest_AnyMove_IsTheGreatestOverAllPlaces() =>
        TurningUnit.Any.Sample(unit =>
        {
            double? expected = Plain(unit.Course);
            double? got = CountJump.Greatest(unit.Course);
            Assert.Equal(expected is null, got is null);
            Assert.Equal(expected ?? 0, got ?? 0, 1e-9);
        }, iter: 200);

    private static double? Plain(MoveCourse course)
    {
        int n = course.SteadyLast - course.SteadyFirst + 1;
        if (!course.HasSteady || n < 2 * CountJump.LeastLong)
        {
            return null;
        }

        double[] t = course.Times.Slice(course.SteadyFirst, n).ToArray(), y = course.Counts.Slice(course.SteadyFirst, n).ToArray();
        double speed = Robust.Median([.. Enumerable.Range(0, n - CountJump.LeastLong).Select(i => (y[i + CountJump.LeastLong] - y[i]) / (t[i + CountJump.LeastLong] - t[i]))]);
        double greatest = 0;
        for (int i = CountJump.LeastLong; i <= n - CountJump.LeastLong; i++)
        {
            double step = ShortStep(t[(i - CountJump.Short)..(i + CountJump.Short)], y[(i - CountJump.Short)..(i + CountJump.Short)]);
            int before = Math.Min(CountJump.Long, i), after = Math.Min(CountJump.Long, n - i);
            double[] ahead = [.. t.Select((at, k) => course.Sign * (y[k] - (speed * at)))];
            double held = course.Sign * (NinthDecile(ahead[i..(i + after)]) - NinthDecile(ahead[(i - before)..i]));
            greatest = held * step > 0 ? Math.Max(greatest, Math.Min(Math.Abs(held), Math.Abs(step))) : greatest;
        }

        return greatest;
    }

    private static double NinthDecile(double[] values) => values.Order().ElementAt((int)(0.9 * (values.Length - 1)));

    // Two parallel lines, one before and one after.
    private static double ShortStep(double[] t, double[] y)
    {
        int half = CountJump.Short;
        double mt0 = t[..half].Average(), mt1 = t[half..].Average(), my0 = y[..half].Average(), my1 = y[half..].Average();
        double sxx = 0, sxy = 0;
        for (int k = 0; k < 2 * half; k++)
        {
            double dt = t[k] - (k < half ? mt0 : mt1);
            sxx += dt * dt;
            sxy += dt * (y[k] - (k < half ? my0 : my1));
        }

        return my1 - my0 - (sxy / sxx * (mt1 - mt0));
    }
}

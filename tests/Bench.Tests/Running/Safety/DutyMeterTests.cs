using Bench.Running.Safety;
using CsCheck;

namespace Bench.Tests.Running.Safety;

public class DutyMeterTests
{
    [Fact]
    public void RestBefore_NothingTurnedYet_IsNone() => Assert.Equal(0, new DutyMeter(60, 0.5).RestBefore(0, 10));

    [Fact]
    public void RestBefore_LongerThanTheWindowAllows_IsForever() =>
        Assert.Equal(double.PositiveInfinity, new DutyMeter(60, 0.5).RestBefore(0, 31));

    [Fact]
    public void RestBefore_WindowFull_IsUntilEnoughOfItHasPassed()
    {
        DutyMeter duty = new(60, 0.5);
        duty.On(0);
        duty.Off(30);

        // At 30 s another 10 s would end at 40 s: the window from -20 s holds 40 s of 30 allowed, so its start must reach 10 s.
        Assert.Equal(30, duty.RestBefore(30, 10), 9);
    }

    [Fact]
    public void RestBefore_AnyHistory_KeepsTheDutyAndIsNotLongerThanNeeded() =>
        Gen.Select(Gen.Double[0.1, 8].Array[1, 30], Gen.Double[0.1, 8]).Sample((spans, on) =>
        {
            const double window = 60;
            const double most = 0.6;
            DutyMeter duty = new(window, most);
            List<(double On, double Off)> history = [];
            double now = 0;
            foreach (double span in spans)
            {
                now += duty.RestBefore(now, span);
                duty.On(now);
                history.Add((now, now + span));
                now += span;
                duty.Off(now);
                Assert.True(Used(history, now, window) <= (most * window) + 1e-6);
            }

            double rest = duty.RestBefore(now, on);
            history.Add((now + rest, now + rest + on));
            Assert.True(Used(history, now + rest + on, window) <= (most * window) + 1e-6);
            if (rest > 1e-6)
            {
                history[^1] = (now, now + on);
                Assert.True(Used(history, now + on, window) > most * window);
            }
        });

    private static double Used(List<(double On, double Off)> history, double now, double window) =>
        history.Sum(h => Math.Max(0, Math.Min(h.Off, now) - Math.Max(h.On, now - window)));
}

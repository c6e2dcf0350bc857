using Bench.Model.Rings;
using Bench.Running.Sampling;
using CsCheck;

namespace Bench.Tests.Running.Sampling;

public class MotionTrackerTests
{
    [Fact]
    public void Add_ConstantSpeedWithGaps_FollowsOverTheRingsEnd() =>
        Gen.Select(Gen.Int[0, 799], Gen.Double[-300, 300], Gen.Double[0.005, 0.009], Gen.Int[0, 15]).Sample((start, speed, step, gap) =>
        {
            Ring ring = new(800);
            MotionTracker tracker = new(ring);
            double t = 0;
            for (int i = 0; i < 400; i++)
            {
                tracker.Add(t, ring.Place((long)Math.Floor(start + (speed * t))));

                // Now and then the feedback is silent for up to 15 polls, about 120 ms.
                t += i % 50 == 49 ? step * (1 + gap) : step;
            }

            double truth = Math.Floor(start + (speed * tracker.LastS)) - start;
            Assert.Equal(truth, tracker.Travelled, 6);

            // Slower than this the staircase of counts shows in a line of 12 readings.
            if (Math.Abs(speed) >= 100)
            {
                // Least squares over 12 readings half a count off at worst: 0.5 Σ|t - m| / Σ(t - m)² = 0.5 · 36 / (143 step).
                Assert.Equal(speed, tracker.Speed, tolerance: 0.126 / step);
            }
        });

    [Fact]
    public void MovedS_CountFlickersByOne_IsNotMotion()
    {
        MotionTracker tracker = new(new Ring(800));
        for (int i = 0; i < 100; i++)
        {
            tracker.Add(i * 0.01, 400 + (i % 2));
        }

        Assert.Equal(0.0, tracker.MovedS);
    }

    [Fact]
    public void TravelledAt_BetweenReadings_IsFinerThanACount()
    {
        MotionTracker tracker = new(new Ring(800));
        for (int i = 0; i < 40; i++)
        {
            tracker.Add(i * 0.007, (int)Math.Floor(i * 0.007 * 263));
        }

        // The mean of a floor is half a count low; the line knows nothing of that and the coast learns it.
        Assert.Equal((0.3 * 263) - 0.5, tracker.TravelledAt(0.3), tolerance: 0.5);
    }
}

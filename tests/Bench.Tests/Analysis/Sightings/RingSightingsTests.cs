using Bench.Analysis.Motion;
using Bench.Analysis.Sightings;
using Bench.Model.Rings;
using Bench.Tests.Analysis.Synthetic;
using CsCheck;

namespace Bench.Tests.Analysis.Sightings;

// The oracle is the definition (docs/methods/c05-missed-sensors.md), count by count.
public class RingSightingsTests
{
    [Fact]
    public void Add_AnyMove_CountsEveryPassAndSighting() =>
        TurningUnit.Any.Sample(unit =>
        {
            Ring ring = Diverter.Profile.Ring;
            RingSightings got = new(ring);
            got.Add(unit.Course);
            int[] passes = new int[ring.Counts], sighted = new int[ring.Counts];
            double[] expected = new double[ring.Counts], logMissed = new double[ring.Counts];
            MoveCourse c = unit.Course;
            for (int i = c.SteadyFirst + 1, front = c.SteadyFirst; i <= c.SteadyLast; i++)
            {
                if (c.Sign * (c.Counts[i] - c.Counts[front]) <= 0)
                {
                    continue;
                }

                int low = Math.Max(c.SteadyFirst, i - 6), high = Math.Min(c.SteadyLast, i + 6);
                double p = Math.Min(0.98, (high - low) / Math.Max(Math.Abs(c.Counts[high] - c.Counts[low]), 1));
                bool spoilt = c.FailedBefore[i] > 0 || c.Times[i] - c.Times[i - 1] > 4 * (c.SteadyToS - c.SteadyFromS) / (c.SteadyLast - c.SteadyFirst);
                for (double at = c.Counts[front] + c.Sign; !spoilt && c.Sign * (c.Counts[i] - at) >= 0; at += c.Sign)
                {
                    if (c.Sign * (at - c.Counts[c.SteadyFirst]) > 3 && c.Sign * (c.Counts[c.SteadyLast] - at) > 3)
                    {
                        int place = ring.Place((long)at);
                        passes[place]++;
                        sighted[place] += at == c.Counts[i] ? 1 : 0;
                        expected[place] += p;
                        logMissed[place] += Math.Log(1 - p);
                    }
                }

                front = i;
            }

            Assert.Equal(passes, got.Passes);
            Assert.Equal(sighted, got.Sighted);
            Assert.Equal(expected, got.Expected);
            Assert.Equal(logMissed, got.LogMissed);
        }, iter: 200);
}

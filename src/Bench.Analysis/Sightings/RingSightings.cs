using Bench.Analysis.Motion;
using Bench.Model.Rings;

namespace Bench.Analysis.Sightings;

/// <summary>
/// Passes and sightings of every count while the unit turned steadily (C5). Readings at rest, during start-up, and counts
/// passed while a reading failed do not count; nor do the first and last counts of a move, where the next reading is not
/// at a random phase.
/// </summary>
internal sealed class RingSightings
{
    /// <summary>Readings on each side that give the local rate of readings per count.</summary>
    private const int Neighbours = 6;

    /// <summary>Counts left out at both ends of a steady part.</summary>
    private const int EndCounts = 3;

    /// <summary>However slow the motion, a healthy sensor is not certain to be seen.</summary>
    public const double MostProbable = 0.98;

    private readonly Ring _ring;

    /// <summary>Begins with nothing seen.</summary>
    public RingSightings(Ring ring)
    {
        _ring = ring;
        Passes = new int[ring.Counts];
        Sighted = new int[ring.Counts];
        Expected = new double[ring.Counts];
        LogMissed = new double[ring.Counts];
    }

    /// <summary>Passes over each count.</summary>
    public int[] Passes { get; }

    /// <summary>Passes in which it was sighted.</summary>
    public int[] Sighted { get; }

    /// <summary>Sightings expected of a healthy count.</summary>
    public double[] Expected { get; }

    /// <summary>ln of the probability that a healthy count would never have been sighted.</summary>
    public double[] LogMissed { get; }

    /// <summary>Revolutions turned steadily.</summary>
    public double Revolutions { get; private set; }

    /// <summary>Adds the steady part of a move.</summary>
    public void Add(MoveCourse course)
    {
        if (!course.Turned)
        {
            return;
        }

        int a = course.SteadyFirst;
        int b = course.SteadyLast;
        ReadOnlySpan<double> counts = course.Counts;
        ReadOnlySpan<double> times = course.Times;
        long begin = (long)counts[a];
        long end = (long)counts[b];
        Revolutions += Math.Abs(end - begin) / (double)_ring.Counts;
        double front = counts[a];
        double usual = (times[b] - times[a]) / (b - a);
        for (int i = a + 1; i <= b; i++)
        {
            double now = counts[i];
            if (course.Sign * (now - front) <= 0)
            {
                continue;
            }

            bool spoilt = course.FailedBefore[i] > 0 || times[i] - times[i - 1] > 4 * usual;
            if (!spoilt)
            {
                AddCounts(unchecked((long)front), unchecked((long)now), begin, end, course.Sign, ReadingsPerCount(course, i));
            }

            front = now;
        }
    }

    private void AddCounts(long front, long now, long begin, long end, int sign, double probability)
    {
        double logMissed = Math.Log(1 - probability);
        for (long c = front + sign; sign * (now - c) >= 0; c += sign)
        {
            if (sign * (c - begin) <= EndCounts || sign * (end - c) <= EndCounts)
            {
                continue;
            }

            int place = _ring.Place(c);
            Passes[place]++;
            Sighted[place] += c == now ? 1 : 0;
            Expected[place] += probability;
            LogMissed[place] += logMissed;
        }
    }

    // min(1, 1/(w D)): readings taken over counts travelled, around reading i.
    private static double ReadingsPerCount(MoveCourse course, int i)
    {
        int low = Math.Max(course.SteadyFirst, i - Neighbours);
        int high = Math.Min(course.SteadyLast, i + Neighbours);
        double travelled = Math.Abs(course.Counts[high] - course.Counts[low]);
        return Math.Min(MostProbable, (high - low) / Math.Max(travelled, 1));
    }
}

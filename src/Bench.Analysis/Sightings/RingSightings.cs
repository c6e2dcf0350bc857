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

    private readonly Ring _ring;
    private readonly SightingChances _chances = new(2 * Neighbours);

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
        ReadOnlySpan<double> counts = course.Counts[..(b + 1)];
        ReadOnlySpan<double> times = course.Times[..(b + 1)];
        ReadOnlySpan<int> failedBefore = course.FailedBefore[..(b + 1)];
        int sign = course.Sign;
        double begin = counts[a];
        int start = _ring.Place((long)begin);
        int end = Along(counts[b], begin, sign);
        Revolutions += Math.Abs(end) / (double)_ring.Counts;
        double usual = (times[b] - times[a]) / (b - a);
        int front = 0;
        for (int i = a + 1; i <= b; i++)
        {
            int now = Along(counts[i], begin, sign);
            if (now <= front)
            {
                continue;
            }

            bool spoilt = failedBefore[i] > 0 || times[i] - times[i - 1] > 4 * usual;
            if (!spoilt)
            {
                int low = Math.Max(a, i - Neighbours);
                int high = Math.Min(b, i + Neighbours);
                int first = Math.Max(front, EndCounts) + 1;
                AddCounts(
                    first, Math.Min(now, end - EndCounts - 1), now, _ring.Place(start + (sign * (long)first)), sign, _chances.Of(high - low, Math.Abs(counts[high] - counts[low])));
            }

            front = now;
        }
    }

    // Whole counts travelled in the direction of the move; native, because the checked conversion is a call and the saturating one slow.
    private static int Along(double count, double begin, int sign) => double.ConvertToIntegerNative<int>(sign * (count - begin));

    // Counts first to last, of which one was read if it is among them; place is that of the first.
    private void AddCounts(int first, int last, int read, int place, int sign, (double Sighted, double LogMissed) chance)
    {
        int[] passes = Passes, sighted = Sighted;
        double[] expected = Expected, logMissed = LogMissed;
        for (int k = first; k <= last; k++)
        {
            passes[place]++;
            sighted[place] += k == read ? 1 : 0;
            expected[place] += chance.Sighted;
            logMissed[place] += chance.LogMissed;
            place += sign;
            place = place == passes.Length ? 0 : place < 0 ? passes.Length - 1 : place;
        }
    }
}

using Bench.Analysis.Motion;
using Bench.Model.Instruments;
using Bench.Model.Profiles;

namespace Bench.Analysis.Currents;

/// <summary>A seat that a move passed, as its torque bent the current (C6). The seat is fixed to the valve's shaft.</summary>
/// <param name="Move">Number of the move.</param>
/// <param name="Port">The port whose seat it is.</param>
/// <param name="Direction">Direction of travel.</param>
/// <param name="OffCounts">Middle of the bump less the port's place, counts.</param>
internal sealed record SeatPass(int Move, string Port, DriveDirection Direction, double OffCounts)
{
    /// <summary>Counts on each side of the bump's middle from which its floor is taken.</summary>
    private const double Flank = 2 * CurrentFeatures.PortArc;

    /// <summary>Counts by which a seat may lie off its port and still be found.</summary>
    private const double Search = 2 * CurrentFeatures.PortArc;

    /// <summary>Rows on the bump; with fewer its middle is where the rows happened to lie.</summary>
    private const int LeastRows = 4;

    private const int LeastFlank = 2;

    /// <summary>Height of a bump over what scatter makes its floor uncertain by.</summary>
    private const double LeastHeight = 4;

    private const int Refinements = 3;

    /// <summary>Counts below which places do not differ: far above rounding, or it would choose the rows at the edge of a bump.</summary>
    private const double Grain = 1e-6;

    /// <summary>Share by which heights may differ and be called equal: far above rounding, far below what a meter resolves.</summary>
    private const double AsHigh = 1e-9;

    /// <summary>Least meter readings a second at a speed.</summary>
    public static double LeastRateHz(double countsPerS) => LeastRows * Math.Abs(countsPerS) / (2 * CurrentFeatures.PortArc);

    /// <summary>Whether ports lie far enough apart for a bump and its floor between them.</summary>
    public static bool Apart(Profile profile) => profile.Ports.All(
        p => profile.Ports.All(q => p == q || Math.Abs(profile.Ring.Difference(p.Count, q.Count)) >= Flank + Search));

    /// <summary>The seats passed whole in the steady part of a move, in the order they were passed.</summary>
    /// <param name="course">Its positions.</param>
    /// <param name="steady">Meter rows of its steady part.</param>
    /// <param name="profile">The family.</param>
    public static List<SeatPass> In(MoveCourse course, MeterRows steady, Profile profile)
    {
        List<(double Place, SeatPass Pass)> passes = [];
        if (!course.Turned || steady.Length < LeastRows || !Apart(profile))
        {
            return [];
        }

        double[] at = new double[steady.Length];
        for (int i = 0; i < at.Length; i++)
        {
            at[i] = course.Between(steady.Times[i]) ?? double.NaN;
        }

        double from = Math.Min(course.Counts[course.SteadyFirst], course.Counts[course.SteadyLast]) + Flank;
        double to = Math.Max(course.Counts[course.SteadyFirst], course.Counts[course.SteadyLast]) - Flank;
        foreach (Port port in profile.Ports)
        {
            double n = profile.Ring.Counts;
            for (double middle = port.Count + (n * Math.Ceiling((from - port.Count) / n)); middle <= to; middle += n)
            {
                if (Off(at, steady.Currents, middle) is double off && middle + off >= from && middle + off <= to)
                {
                    passes.Add((middle + off, new SeatPass(course.Move.Number, port.Name, course.Move.Direction, off)));
                }
            }
        }

        return [.. passes.OrderBy(p => course.Sign * p.Place).Select(p => p.Pass)];
    }

    // The place of the greatest rise over the floor on both sides, then the bump's centre of gravity about it.
    private static double? Off(double[] at, ReadOnlySpan<double> currents, double middle)
    {
        double[] from = [.. at.Select(a => Grained(a - middle))];
        List<(double Tried, double Height)> heights = [];
        for (double tried = -Search; tried <= Search; tried += CurrentFeatures.PortArc / 4)
        {
            if (Bump.About(from, currents, tried) is { } bump)
            {
                heights.Add((tried, bump.Height));
            }
        }

        if (heights.Count == 0)
        {
            return null;
        }

        // Of places that are as high the middle one, or the direction of the search would show. Sums of a meter's steps that
        // are equal differ by rounding, which must not choose.
        double highest = heights.Max(h => h.Height);
        double off = heights.Where(h => h.Height >= highest - (AsHigh * Math.Abs(highest))).Average(h => h.Tried);
        for (int i = 0; i < Refinements; i++)
        {
            if (Bump.About(from, currents, Grained(off)) is not { Stands: true } bump || Math.Abs(bump.Middle) > Search)
            {
                return null;
            }

            off = bump.Middle;
        }

        return off;
    }

    private static double Grained(double counts) => Math.Round(counts / Grain) * Grain;

    // A bump about a place: height of the mean over the floor, and centre of gravity of what rises above it.
    private readonly record struct Bump(double Height, double Middle, bool Stands)
    {
        public static Bump? About(double[] at, ReadOnlySpan<double> currents, double place)
        {
            double sum = 0, floor = 0, squares = 0;
            int rows = 0, before = 0, after = 0;
            for (int i = 0; i < at.Length; i++)
            {
                double off = at[i] - place;
                if (Math.Abs(off) <= CurrentFeatures.PortArc)
                {
                    sum += currents[i];
                    rows++;
                }
                else if (Math.Abs(off) <= Flank)
                {
                    floor += currents[i];
                    squares += currents[i] * currents[i];
                    before += off < 0 ? 1 : 0;
                    after += off < 0 ? 0 : 1;
                }
            }

            int flank = before + after;
            if (rows < LeastRows || Math.Min(before, after) < LeastFlank)
            {
                return null;
            }

            floor /= flank;
            double scatter = Math.Sqrt(Math.Max(0, (squares / flank) - (floor * floor)));
            double height = (sum / rows) - floor;
            return new Bump(height, Gravity(at, currents, place, floor), height > LeastHeight * scatter * Math.Sqrt((1.0 / rows) + (1.0 / flank)));
        }

        // Each row speaks for the way to its neighbours, so that a unit that slows over the seat does not draw it that way.
        private static double Gravity(double[] at, ReadOnlySpan<double> currents, double place, double floor)
        {
            double weight = 0, moment = 0;
            for (int i = 1; i < at.Length - 1; i++)
            {
                if (Math.Abs(at[i] - place) <= CurrentFeatures.PortArc)
                {
                    double above = (currents[i] - floor) * Math.Abs(at[i + 1] - at[i - 1]);
                    weight += above;
                    moment += above * at[i];
                }
            }

            return weight > 0 ? moment / weight : place;
        }
    }
}

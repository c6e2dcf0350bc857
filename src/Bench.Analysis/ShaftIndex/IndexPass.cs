using Bench.Analysis.Motion;
using Bench.Model.Instruments;
using Bench.Model.Traces;

namespace Bench.Analysis.ShaftIndex;

/// <summary>One pass of the index arc, as the encoder counted it (C6).</summary>
/// <param name="Move">Number of the move.</param>
/// <param name="Direction">Direction of travel.</param>
/// <param name="TimeS">When the middle passed, seconds.</param>
/// <param name="Middle">Middle of the arc, counts, unwrapped within its move.</param>
/// <param name="Uncertainty">Standard uncertainty, counts.</param>
internal sealed record IndexPass(int Move, DriveDirection Direction, double TimeS, double Middle, double Uncertainty)
{
    /// <summary>Longest time between the two samples an edge lies between, seconds.</summary>
    private const double MostGapS = 0.08;

    /// <summary>Standard uncertainty of a position between readings: rectangular over one count.</summary>
    private const double PositionUncertainty = 0.2886751345948129;

    /// <summary>The passes of a move, both edges in its steady part.</summary>
    /// <remarks>
    /// An edge lies between two samples, rectangular: u = gap/√12 in counts. The middle is the mean of both edges, so it
    /// does not depend on the arc's width.
    /// </remarks>
    public static List<IndexPass> In(MoveCourse course, MeterRows rows)
    {
        List<IndexPass> passes = [];
        if (!course.HasSteady)
        {
            return passes;
        }

        (double At, double TimeS, double Gap)? entry = null;
        MeterRows steady = rows.Between(course.SteadyFromS, course.SteadyToS);
        ReadOnlySpan<byte> index = steady.Index;
        int at = index.IndexOfAnyExcept((byte)IndexState.NotSampled);
        while (at >= 0 && index[(at + 1)..].IndexOfAnyExcept(index[at], (byte)IndexState.NotSampled) is >= 0 and int ahead)
        {
            int changed = at + 1 + ahead;
            int before = index[..changed].LastIndexOf(index[at]);
            (double At, double TimeS, double Gap)? edge = Edge(course, steady.Times[before], steady.Times[changed]);
            if (index[changed] == (byte)IndexState.Open && entry is { } closed && edge is { } opened)
            {
                double u = Math.Sqrt((((closed.Gap * closed.Gap) + (opened.Gap * opened.Gap)) / 48)
                    + (PositionUncertainty * PositionUncertainty / 2));
                passes.Add(new IndexPass(
                    course.Move.Number, course.Move.Direction, (closed.TimeS + opened.TimeS) / 2, (closed.At + opened.At) / 2, u));
            }

            entry = index[changed] == (byte)IndexState.Closed ? edge : null;
            at = changed;
        }

        return passes;
    }

    private static (double At, double TimeS, double Gap)? Edge(MoveCourse course, double fromS, double toS) =>
        toS - fromS <= MostGapS && course.At(fromS) is double a && course.At(toS) is double b
            ? ((a + b) / 2, (fromS + toS) / 2, Math.Abs(b - a))
            : null;
}

namespace Bench.Model.Rings;

/// <summary>A circle of positions numbered 0 to <see cref="Counts"/> - 1, read by an encoder.</summary>
/// <remarks>Computation C1 (docs/methods/c01-circular-error.md).</remarks>
public readonly record struct Ring
{
    /// <summary>The least number of positions that still has a direction.</summary>
    public const int LeastCounts = 3;

    /// <summary>The greatest ring this software handles; a 16-bit register holds no more.</summary>
    public const int MostCounts = 65536;

    /// <summary>Makes a ring.</summary>
    /// <param name="counts">Number of positions, <see cref="LeastCounts"/> to <see cref="MostCounts"/>.</param>
    /// <exception cref="ArgumentOutOfRangeException">The number is out of range.</exception>
    [System.Text.Json.Serialization.JsonConstructor]
    public Ring(int counts)
    {
        ArgumentOutOfRangeException.ThrowIfLessThan(counts, LeastCounts);
        ArgumentOutOfRangeException.ThrowIfGreaterThan(counts, MostCounts);
        Counts = counts;
    }

    /// <summary>Number of positions.</summary>
    public int Counts { get; }

    /// <summary>The place on the ring, 0 to <see cref="Counts"/> - 1, of a count that may lie anywhere.</summary>
    public int Place(long count)
    {
        long r = count % Counts;
        return (int)(r < 0 ? r + Counts : r);
    }

    /// <summary>The place on the ring, in [0, <see cref="Counts"/>), of a fractional count.</summary>
    public double Place(double count)
    {
        double r = count - (Counts * Math.Floor(count / Counts));
        return r >= Counts ? 0.0 : r;
    }

    /// <summary>
    /// Signed circular difference <paramref name="reading"/> - <paramref name="target"/>, the short way round,
    /// in (-N/2, N/2] counts. On a ring of 1000, (0, 999) gives 1 and (999, 0) gives -1; a half turn is +N/2.
    /// </summary>
    public int Difference(int reading, int target)
    {
        int d = Place((long)reading - target);
        return 2 * d > Counts ? d - Counts : d;
    }

    /// <summary>As <see cref="Difference(int,int)"/>, for fractional counts.</summary>
    public double Difference(double reading, double target)
    {
        double d = Place(reading - target);
        return 2.0 * d > Counts ? d - Counts : d;
    }

    /// <summary>
    /// Counts to travel from <paramref name="from"/> to <paramref name="to"/> in one direction:
    /// 0 to N - 1 when <paramref name="up"/>, else -(N - 1) to 0.
    /// </summary>
    public int Travel(int from, int to, bool up)
    {
        int d = Place((long)to - from);
        return up || d == 0 ? d : d - Counts;
    }
}

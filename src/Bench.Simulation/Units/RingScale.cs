using Bench.Model.Rings;

namespace Bench.Simulation.Units;

/// <summary>Which sensor a place on a ring of uneven geometry lies under.</summary>
internal sealed class RingScale
{
    private readonly Ring _ring;
    private readonly double[] _error;
    private readonly double[] _edges;

    internal RingScale(RingGeometry geometry, Ring ring)
    {
        _ring = ring;

        // One more than the ring has, so that the step from the last count to the first needs no test.
        _error = new double[ring.Counts + 1];
        _edges = new double[ring.Counts];
        for (int i = 0; i <= ring.Counts; i++)
        {
            double angle = 2.0 * Math.PI * i / ring.Counts;
            _error[i] = (geometry.OncePerTurnCounts * Math.Sin(angle + geometry.PhasesRad.Once))
                + (geometry.TwicePerTurnCounts * Math.Sin((2.0 * angle) + geometry.PhasesRad.Twice));
        }

        for (int i = 0; i < geometry.EdgeOffsets.Count; i++)
        {
            _edges[i] = geometry.EdgeOffsets[i];
        }
    }

    /// <summary>Where the ring's own scale has a place of the shaft, counts, not wrapped.</summary>
    internal double Seen(double position)
    {
        double place = _ring.Place(position);
        int count = (int)place;
        return position + _error[count] + ((place - count) * (_error[count + 1] - _error[count]));
    }

    /// <summary>The edges of the sensor's field at a place of the scale, counts.</summary>
    internal (double Least, double Most, long Count) Cell(double seen)
    {
        long cell = (long)Math.Floor(seen + 0.5);
        if (seen >= Upper(cell))
        {
            cell++;
        }
        else if (seen < Upper(cell - 1))
        {
            cell--;
        }

        return (Upper(cell - 1), Upper(cell), cell);
    }

    private double Upper(long cell) => cell + 0.5 + _edges[_ring.Place(cell)];
}

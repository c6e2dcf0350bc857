namespace Bench.Simulation.Units;

/// <summary>Play between a driving and a driven part, neither of which has noticeable inertia beside the motor's.</summary>
public sealed class Play
{
    private readonly double _half;
    private double _lead;

    /// <summary>Makes a play.</summary>
    /// <param name="counts">Its width, counts.</param>
    /// <param name="lead">How far the driving part is ahead of the middle, counts; held within the width.</param>
    public Play(double counts, double lead)
    {
        ArgumentOutOfRangeException.ThrowIfNegative(counts);
        _half = counts / 2.0;
        _lead = Math.Clamp(lead, -_half, _half);
    }

    /// <summary>Whether motion of the driving part in a direction (+1 or -1) moves the driven part at once.</summary>
    public bool Engaged(int direction) => direction * _lead >= _half;

    /// <summary>Moves the driving part.</summary>
    /// <returns>What the driven part is moved by, counts.</returns>
    public double Move(double counts)
    {
        double lead = _lead + counts;
        if (lead > _half)
        {
            _lead = _half;
            return lead - _half;
        }

        if (lead < -_half)
        {
            _lead = -_half;
            return lead + _half;
        }

        _lead = lead;
        return 0.0;
    }
}

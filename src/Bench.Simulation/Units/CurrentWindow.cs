namespace Bench.Simulation.Units;

/// <summary>Mean of the supply current over the last steps: what an averaging meter shows.</summary>
internal sealed class CurrentWindow(int steps)
{
    private readonly double[] _values = new double[steps];
    private int _next;
    private double _sum;

    /// <summary>The mean, amperes.</summary>
    internal double Mean => _sum / _values.Length;

    internal void Add(double ampere)
    {
        _sum += ampere - _values[_next];
        _values[_next] = ampere;
        if (++_next == _values.Length)
        {
            // Summed anew once a turn, so that rounding does not gather over hours.
            _next = 0;
            double sum = 0.0;
            foreach (double v in _values)
            {
                sum += v;
            }

            _sum = sum;
        }
    }

    /// <summary>As many steps of the same current.</summary>
    internal void Add(double ampere, long steps)
    {
        for (long i = Math.Min(steps, _values.Length); i > 0; i--)
        {
            Add(ampere);
        }
    }
}

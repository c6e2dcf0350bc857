using Bench.Analysis.Motion;

namespace Bench.Analysis.Extraction;

/// <summary>Room in which one move after the other is taken apart, as large as the longest.</summary>
internal sealed class MoveRoom
{
    private double[] _counts = [];

    /// <summary>Columns.</summary>
    public MoveReadings Readings { get; } = new();

    /// <summary>Room for so many counts at least.</summary>
    public double[] Counts(int readings)
    {
        if (_counts.Length < readings)
        {
            _counts = new double[Readings.Capacity];
        }

        return _counts;
    }
}

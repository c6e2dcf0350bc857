using Bench.Model.Instruments;

namespace Bench.Running.Landing;

/// <summary>
/// Expects how far a unit travels after the off command, by direction, from the moves before: coast and the latency of
/// command and relay together, since the bench can't tell them apart and need not.
/// </summary>
internal sealed class CoastPredictor
{
    /// <summary>Travel time that stands for coast before any move has shown it: a relay, a frame and a braked motor (from memory).</summary>
    public const double FirstGuessS = 0.030;

    private const int Remembered = 9;
    private readonly Dictionary<DriveDirection, Queue<double>> _times = new()
    {
        [DriveDirection.Up] = new Queue<double>(),
        [DriveDirection.Down] = new Queue<double>(),
    };

    /// <summary>Whether a move in that direction has been seen.</summary>
    public bool Knows(DriveDirection direction) => _times[direction].Count > 0;

    /// <summary>Expected coast at a speed, counts, with the speed's sign.</summary>
    public double Expect(DriveDirection direction, double speed)
    {
        double[] times = [.. _times[direction].Order()];
        double median = times.Length switch
        {
            0 => FirstGuessS,
            int n when n % 2 == 1 => times[n / 2],
            int n => (times[(n / 2) - 1] + times[n / 2]) / 2,
        };
        return median * speed;
    }

    /// <summary>Takes the coast of a move that landed.</summary>
    /// <param name="direction">Its direction.</param>
    /// <param name="coast">Counts travelled after the off command, signed.</param>
    /// <param name="speed">Speed at that command, counts per second, signed.</param>
    public void Add(DriveDirection direction, double coast, double speed)
    {
        double time = coast / speed;
        if (!double.IsFinite(time) || time < 0)
        {
            return;
        }

        Queue<double> times = _times[direction];
        times.Enqueue(time);
        if (times.Count > Remembered)
        {
            times.Dequeue();
        }
    }
}

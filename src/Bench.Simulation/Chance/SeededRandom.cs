namespace Bench.Simulation.Chance;

/// <summary>
/// The one source of chance in a simulation: SplitMix64 (Steele, Lea and Flood 2014, "Fast splittable pseudorandom
/// number generators"). Written here, not taken from the framework, so that a seed means the same run for ever.
/// </summary>
public sealed class SeededRandom
{
    private const ulong Golden = 0x9E3779B97F4A7C15;

    private readonly ulong _seed;
    private ulong _state;
    private double _spare;
    private bool _hasSpare;

    /// <summary>Starts a sequence.</summary>
    public SeededRandom(ulong seed)
    {
        _seed = seed;
        _state = seed;
    }

    /// <summary>A sequence of its own for a named part: what one part draws never shifts what another draws.</summary>
    public SeededRandom Fork(string part)
    {
        ArgumentNullException.ThrowIfNull(part);
        unchecked
        {
            // FNV-1a over the name, 64 bits; then mixed with the seed this sequence began with.
            ulong hash = 14695981039346656037;
            foreach (char c in part)
            {
                hash = (hash ^ c) * 1099511628211;
            }

            return new SeededRandom(Mix(_seed + Golden) ^ Mix(hash));
        }
    }

    /// <summary>Next 64 bits.</summary>
    public ulong NextBits() => Mix(unchecked(_state += Golden));

    /// <summary>Uniform in [0, 1).</summary>
    public double Next() => (NextBits() >> 11) * (1.0 / (1UL << 53));

    /// <summary>Uniform in [<paramref name="low"/>, <paramref name="high"/>).</summary>
    public double Between(double low, double high) => low + ((high - low) * Next());

    /// <summary>Whole number from <paramref name="low"/> to <paramref name="high"/>, both included.</summary>
    public int Whole(int low, int high)
    {
        ArgumentOutOfRangeException.ThrowIfLessThan(high, low);
        return low + (int)(Next() * (high - low + 1));
    }

    /// <summary>True with probability <paramref name="p"/>.</summary>
    public bool Happens(double p) => Next() < p;

    /// <summary>Exponential with a mean.</summary>
    public double Exponential(double mean) => -mean * Math.Log(1.0 - Next());

    /// <summary>Standard normal (Box and Muller 1958).</summary>
    public double Normal()
    {
        if (_hasSpare)
        {
            _hasSpare = false;
            return _spare;
        }

        double r = Math.Sqrt(-2.0 * Math.Log(1.0 - Next()));
        (double sin, double cos) = Math.SinCos(2.0 * Math.PI * Next());
        _spare = r * sin;
        _hasSpare = true;
        return r * cos;
    }

    private static ulong Mix(ulong z)
    {
        unchecked
        {
            z = (z ^ (z >> 30)) * 0xBF58476D1CE4E5B9;
            z = (z ^ (z >> 27)) * 0x94D049BB133111EB;
            return z ^ (z >> 31);
        }
    }
}

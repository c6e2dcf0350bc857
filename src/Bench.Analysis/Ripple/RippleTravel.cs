using Bench.Analysis.Motion;
using Bench.Model.Profiles;

namespace Bench.Analysis.Ripple;

/// <summary>How far a motor turned in a move by the ripple of its current, and how far the count went meanwhile (C8).</summary>
/// <param name="Move">Number of the move.</param>
/// <param name="ByRipple">Travel by ripple, counts, not negative.</param>
/// <param name="ByCount">Travel by the count over the same time, counts, not negative.</param>
internal sealed record RippleTravel(int Move, double ByRipple, double ByCount)
{
    /// <summary>Ripple is looked for this share about where the count's speed puts it: a motor that turns by more than that beside it is another fault.</summary>
    public const double Search = 0.25;

    /// <summary>
    /// Power of a line over the band's median. Noise alone exceeds 20 in one of a million bins: its powers are exponential, of
    /// median ln 2 (Priestley 1981, from memory).
    /// </summary>
    private const double LeastRatio = 20;

    /// <summary>Ripples in a block: enough for bins of a thirty-second of the frequency, few enough to follow a change of speed.</summary>
    private const double RipplesPerBlock = 32;

    private const int LeastBlock = 64;
    private const int MostBlock = 8192;
    private const int LeastBlocks = 3;

    /// <summary>Ripple frequency at a speed, hertz; null where the profile does not say how many ripples a turn of the motor has.</summary>
    /// <param name="profile">The family.</param>
    /// <param name="countsPerS">Speed, counts per second.</param>
    public static double? FrequencyHz(Profile profile, double countsPerS) =>
        profile.Electrical.RippleCyclesPerMotorRevolution * profile.Electrical.GearRatio * Math.Abs(countsPerS) / profile.Ring.Counts;

    /// <summary>Least samples of current a second at a speed: twice the highest frequency looked for (Nyquist).</summary>
    /// <param name="profile">The family.</param>
    /// <param name="countsPerS">Speed, counts per second.</param>
    public static double? LeastRateHz(Profile profile, double countsPerS) => 2 * (1 + Search) * FrequencyHz(profile, countsPerS);

    /// <summary>The travel of a move; null where the ripple can't be followed through at least half of it.</summary>
    /// <param name="course">Its positions.</param>
    /// <param name="steady">Meter rows of its steady part.</param>
    /// <param name="profile">The family.</param>
    public static RippleTravel? Of(MoveCourse course, MeterRows steady, Profile profile)
    {
        if (!course.Turned || course.Speed() is not double speed || FrequencyHz(profile, speed) is not > 0 || steady.Length <= LeastBlock)
        {
            return null;
        }

        double frequency = FrequencyHz(profile, speed)!.Value;
        double rate = (steady.Length - 1) / (steady.Times[^1] - steady.Times[0]);
        if (!(rate >= LeastRateHz(profile, speed)))
        {
            return null;
        }

        int block = (int)Math.Clamp(System.Numerics.BitOperations.RoundUpToPowerOf2((uint)Math.Min(MostBlock, RipplesPerBlock * rate / frequency)), LeastBlock, MostBlock);
        double countsPerRipple = Math.Abs(speed) / frequency;
        double byRipple = 0, byCount = 0;
        int blocks = 0, followed = 0;
        for (int from = 0; from + block < steady.Length; from += block)
        {
            blocks++;
            ReadOnlySpan<double> times = steady.Times.Slice(from, block + 1);
            double span = times[^1] - times[0];
            if (!Even(times, span / block) || course.Between(times[0]) is not double begin || course.Between(times[^1]) is not double end)
            {
                continue;
            }

            double blockRate = block / span;
            double[] density = Spectrum.Density(steady.Currents.Slice(from, block), blockRate);
            if (Spectrum.Line(density, blockRate / block, (1 - Search) * frequency, (1 + Search) * frequency, LeastRatio) is double line)
            {
                byRipple += line * span * countsPerRipple;
                byCount += Math.Abs(end - begin);
                followed++;
            }
        }

        return followed >= Math.Max(LeastBlocks, (blocks + 1) / 2) ? new RippleTravel(course.Move.Number, byRipple, byCount) : null;
    }

    // A sample missing shifts the phase of all that follow it in the block.
    private static bool Even(ReadOnlySpan<double> times, double interval)
    {
        for (int i = 1; i < times.Length; i++)
        {
            if (Math.Abs(times[i] - times[i - 1] - interval) > 0.75 * interval)
            {
                return false;
            }
        }

        return true;
    }
}

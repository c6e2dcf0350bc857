using Bench.Simulation.Chance;

namespace Bench.Simulation.Benches;

/// <summary>What bad wires do to frames in one direction: lose some, turn a bit in others, cut others short.</summary>
/// <param name="share">Share of frames hit, 0 to 1.</param>
/// <param name="random">Chance.</param>
public sealed class LineNoise(double share, SeededRandom random)
{
    private const double LostShare = 0.35;
    private const double CutShareOfRest = 0.25;

    /// <summary>Lets a frame pass, or not.</summary>
    /// <param name="frame">The frame; a turned bit is turned in place.</param>
    /// <returns>How many of its bytes arrive; 0 when it is lost.</returns>
    public int Pass(Span<byte> frame)
    {
        if (frame.IsEmpty || !random.Happens(share))
        {
            return frame.Length;
        }

        if (random.Happens(LostShare))
        {
            return 0;
        }

        if (random.Happens(CutShareOfRest))
        {
            return random.Whole(1, Math.Max(1, frame.Length - 1));
        }

        frame[random.Whole(0, frame.Length - 1)] ^= (byte)(1 << random.Whole(0, 7));
        return frame.Length;
    }
}

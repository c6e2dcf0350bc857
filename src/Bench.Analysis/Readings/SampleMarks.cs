using System.Diagnostics.CodeAnalysis;
using System.Numerics;
using System.Runtime.CompilerServices;
using System.Runtime.InteropServices;
using System.Runtime.Intrinsics;
using Bench.Model.Instruments;
using Bench.Model.Traces;

namespace Bench.Analysis.Readings;

/// <summary>What a block of samples says at a glance, so that those who would look for what it does not hold need not.</summary>
internal readonly struct SampleMarks
{
    /// <summary>Most samples of a block, that a processor keeps at hand from one reader of them to the next.</summary>
    public const int Most = 256;

    // Where those lie in the last eight bytes of a sample.
    private const int DriveBit = 32;
    private const int FeedbackBit = 40;

    private readonly Words _tried;

    /// <summary>Looks at a block.</summary>
    /// <param name="samples">At most <see cref="Most"/>.</param>
    public SampleMarks(ReadOnlySpan<Sample> samples)
    {
        ArgumentOutOfRangeException.ThrowIfGreaterThan(samples.Length, Most);
        ref ulong from = ref Unsafe.As<Sample, ulong>(ref MemoryMarshal.GetReference(samples));
        Vector256<ulong> any = Vector256<ulong>.Zero, off = any;
        int i = 0;
        for (; i <= samples.Length - 4; i += 4)
        {
            // The last eight bytes of four samples: count, drive, feedback, index.
            ref ulong last = ref Unsafe.Add(ref from, (4 * i) + 3);
            Vector256<ulong> four = Vector256.Create(last, Unsafe.Add(ref last, 4), Unsafe.Add(ref last, 8), Unsafe.Add(ref last, 12));
            Vector256<ulong> none = Vector256.Equals(four.AsByte(), Vector256<byte>.Zero).AsUInt64();
            any |= four;
            off |= none;
            ulong tried = ~(none << (56 - FeedbackBit)).ExtractMostSignificantBits() & 15;
            _tried[i / 64] |= tried << (i % 64);
        }

        FeedbackStatus worst = (FeedbackStatus)(((any[0] | any[1] | any[2] | any[3]) >> FeedbackBit) & 255);
        bool anyOff = (((off[0] | off[1] | off[2] | off[3]) >> DriveBit) & 255) != 0;
        for (; i < samples.Length; i++)
        {
            worst |= samples[i].Feedback;
            anyOff |= samples[i].Drive == DriveState.Off;
            _tried[i / 64] |= samples[i].Feedback == FeedbackStatus.NotSampled ? 0 : 1UL << (i % 64);
        }

        AnyOff = anyOff;
        AnyLost = worst > FeedbackStatus.Ok;
    }

    /// <summary>Whether the drive was off in any.</summary>
    public bool AnyOff { get; }

    /// <summary>Whether any attempt to read a position gave no count.</summary>
    public bool AnyLost { get; }

    /// <summary>Samples in which a position was tried: 64 a word, the first in the lowest bit.</summary>
    [UnscopedRef]
    public ReadOnlySpan<ulong> Tried => _tried;

    /// <summary>How many those are.</summary>
    public int Attempts
    {
        get
        {
            int attempts = 0;
            foreach (ulong word in _tried)
            {
                attempts += BitOperations.PopCount(word);
            }

            return attempts;
        }
    }

    [InlineArray(Most / 64)]
    private struct Words
    {
        private ulong _first;
    }
}

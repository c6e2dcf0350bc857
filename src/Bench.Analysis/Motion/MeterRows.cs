using Bench.Analysis.Statistics;
using Bench.Model.Traces;

namespace Bench.Analysis.Motion;

/// <summary>Meters and index of some samples in order, in columns. Good until the <see cref="MoveReadings"/> they are of are filled again.</summary>
internal readonly ref struct MeterRows
{
    private readonly bool _rising;

    /// <summary>Rows of columns of one length.</summary>
    /// <param name="times">Seconds.</param>
    /// <param name="currents">Amperes.</param>
    /// <param name="voltages">Volts.</param>
    /// <param name="index">The index input, as <see cref="IndexState"/>.</param>
    /// <param name="rising">Whether no time lies before the one before it.</param>
    public MeterRows(ReadOnlySpan<double> times, ReadOnlySpan<double> currents, ReadOnlySpan<double> voltages, ReadOnlySpan<byte> index, bool rising)
    {
        Times = times;
        Currents = currents;
        Voltages = voltages;
        Index = index;
        _rising = rising;
    }

    /// <summary>Seconds.</summary>
    public ReadOnlySpan<double> Times { get; }

    /// <summary>Amperes.</summary>
    public ReadOnlySpan<double> Currents { get; }

    /// <summary>Volts.</summary>
    public ReadOnlySpan<double> Voltages { get; }

    /// <summary>The index input, as <see cref="IndexState"/>.</summary>
    public ReadOnlySpan<byte> Index { get; }

    /// <summary>Number of rows.</summary>
    public int Length => Times.Length;

    /// <summary>The rows between two instants, both included.</summary>
    public MeterRows Between(double fromS, double toS)
    {
        int first;
        int end;
        if (_rising)
        {
            first = Rising.FirstFrom(Times, fromS);
            end = Rising.FirstAfter(Times, toS);
        }
        else
        {
            first = 0;
            while (first < Length && !(Times[first] >= fromS))
            {
                first++;
            }

            end = Length;
            while (end > 0 && !(Times[end - 1] <= toS))
            {
                end--;
            }
        }

        return Slice(first, Math.Max(first, end));
    }

    /// <summary>The last of the rows that follow each other in order of time up to an instant.</summary>
    /// <param name="from">A row before or at the instant.</param>
    /// <param name="toS">The instant, seconds.</param>
    public int LastInOrder(int from, double toS)
    {
        int last = from;
        if (_rising)
        {
            // Gallops, then halves: the last is mostly near.
            int stride = 8;
            while (last + stride < Length && Times[last + stride] <= toS)
            {
                last += stride;
                stride *= 2;
            }

            return last + Rising.FirstAfter(Times[last..Math.Min(Length, last + stride)], toS) - 1;
        }

        while (last + 1 < Length && Times[last + 1] <= toS && Times[last + 1] >= Times[last])
        {
            last++;
        }

        return last;
    }

    private MeterRows Slice(int first, int end) =>
        new(Times[first..end], Currents[first..end], Voltages[first..end], Index[first..end], _rising);
}

namespace Bench.Devices.Streams;

/// <summary>The latest frames of a stream. When it is full the oldest makes way; who has not taken it by then has lost it.</summary>
internal sealed class StreamBuffer
{
    /// <summary>What is kept: a run polls at least four times a second, even while a motor rests.</summary>
    private const double KeptS = 1.0;

    private const int LeastFrames = 64;

    private readonly int _fields;
    private readonly long[] _at;
    private readonly double[] _halfWidthS;
    private readonly double[] _values;

    /// <summary>Makes an empty buffer.</summary>
    public StreamBuffer(double rateHz, int fields)
    {
        int capacity = Math.Max(LeastFrames, (int)Math.Ceiling(KeptS * rateHz));
        _fields = fields;
        _at = new long[capacity];
        _halfWidthS = new double[capacity];
        _values = new double[capacity * fields];
    }

    /// <summary>Place after the newest frame; places count from 0 and never repeat.</summary>
    public long End { get; private set; }

    /// <summary>Place of the oldest frame kept.</summary>
    public long First => Math.Max(0, End - _at.Length);

    /// <summary>Adds a frame.</summary>
    public void Add(long at, double halfWidthS, ReadOnlySpan<double> values)
    {
        int slot = Slot(End);
        (_at[slot], _halfWidthS[slot]) = (at, halfWidthS);
        values.CopyTo(_values.AsSpan(slot * _fields, _fields));
        End++;
    }

    /// <summary>The instant of a frame that is kept, and its half-width.</summary>
    public (long At, double HalfWidthS) When(long place) => (_at[Slot(place)], _halfWidthS[Slot(place)]);

    /// <summary>The numbers of a frame that is kept.</summary>
    public ReadOnlySpan<double> Values(long place) => _values.AsSpan(Slot(place) * _fields, _fields);

    private int Slot(long place) => (int)(place % _at.Length);
}

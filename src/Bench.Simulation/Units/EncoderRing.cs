using Bench.Model.Rings;
using Bench.Simulation.Chance;

namespace Bench.Simulation.Units;

/// <summary>The ring of sensors on the encoder shaft, and the last count seen, which is what the unit reports.</summary>
internal sealed class EncoderRing
{
    private readonly EncoderDesign _design;
    private readonly Ring _ring;
    private readonly SeededRandom _random;
    private readonly bool[] _dead;
    private readonly RingScale? _scale;
    private readonly double _creepPerCount;
    private double _position;
    private double _leastOfCell;
    private double _mostOfCell;
    private bool _lastMissed;

    internal EncoderRing(EncoderDesign design, Ring ring, double position, SeededRandom random)
    {
        _design = design;
        _ring = ring;
        _random = random;
        _dead = new bool[ring.Counts];
        foreach (int count in design.DeadCounts)
        {
            _dead[count] = true;
        }

        _scale = design.Geometry is { } geometry ? new RingScale(geometry, ring) : null;
        _creepPerCount = design.CreepCountsPerRevolution / ring.Counts;
        _position = position;
        LastSeen = ring.Place((long)Math.Round(position));
        Enter();
    }

    /// <summary>The count last seen, 0 to N - 1.</summary>
    internal int LastSeen { get; private set; }

    /// <summary>Turns the shaft. The steps of the plant are far below a count, so no sensor is jumped over here.</summary>
    internal void Move(double counts)
    {
        _position += counts + (_creepPerCount * Math.Abs(counts));
        double seen = Seen;
        if (seen < _leastOfCell || seen >= _mostOfCell)
        {
            Enter();
        }
    }

    private double Seen => _scale?.Seen(_position) ?? _position;

    private void Enter()
    {
        int count = _ring.Place(Cell());
        if (!_dead[count] && !Missed(count))
        {
            LastSeen = count;
        }
    }

    private long Cell()
    {
        if (_scale is not null)
        {
            (_leastOfCell, _mostOfCell, long uneven) = _scale.Cell(Seen);
            return uneven;
        }

        double cell = Math.Floor(_position + 0.5);
        _leastOfCell = cell - 0.5;
        _mostOfCell = cell + 0.5;
        return (long)cell;
    }

    private bool Missed(int count)
    {
        if (_design.Contaminated is not { } arc || _ring.Place((long)count - arc.FirstCount) >= arc.WidthCounts)
        {
            return false;
        }

        if (!_random.Happens(arc.Persistence))
        {
            _lastMissed = _random.Happens(arc.MissShare);
        }

        return _lastMissed;
    }
}

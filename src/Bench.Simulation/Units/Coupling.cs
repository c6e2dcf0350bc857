using Bench.Simulation.Chance;

namespace Bench.Simulation.Units;

/// <summary>Encoder shaft to valve shaft.</summary>
internal sealed class Coupling
{
    private readonly CouplingDesign _design;
    private readonly SeededRandom _random;
    private readonly Play _play;
    private double _holdsNm;
    private double _toNextTooth;
    private bool _strained;

    internal Coupling(CouplingDesign design, double lead, SeededRandom random)
    {
        _design = design;
        _random = random;
        _play = new Play(design.PlayCounts, lead);
        Seat();
    }

    /// <summary>Counts slipped so far, whichever way.</summary>
    internal double SlippedCounts { get; private set; }

    /// <summary>Torque on the encoder shaft that turns in a direction, N·m.</summary>
    internal double Load(int direction, double valveNm)
    {
        if (!_play.Engaged(direction))
        {
            return 0.0;
        }

        return Math.Min(valveNm, _toNextTooth > 0.0 ? _design.SlidingShare * _holdsNm : _holdsNm);
    }

    /// <summary>Moves the encoder shaft; returns what the valve moves, counts.</summary>
    internal double Move(double counts, double valveNm)
    {
        double moved = _play.Move(counts);
        if (moved == 0.0)
        {
            return 0.0;
        }

        Strain(valveNm > _design.HoldsAtLeastNm);
        if (_toNextTooth <= 0.0 && valveNm > _holdsNm)
        {
            _toNextTooth = _design.ToothCounts;
        }

        if (_toNextTooth <= 0.0)
        {
            return moved;
        }

        _toNextTooth -= Math.Abs(moved);
        SlippedCounts += Math.Abs(moved);
        if (_toNextTooth <= 0.0)
        {
            Seat();
        }

        return 0.0;
    }

    // Teeth that were strained settle anew when the strain is over.
    private void Strain(bool strained)
    {
        if (_strained && !strained)
        {
            Seat();
        }

        _strained = strained;
    }

    private void Seat()
    {
        _toNextTooth = 0.0;
        _holdsNm = _random.Between(_design.HoldsAtLeastNm, _design.HoldsAtMostNm);
    }
}

using Bench.Simulation.Chance;

namespace Bench.Simulation.Units;

/// <summary>A contact that opens now and then while the unit turns, and closes again after a while, turning or not.</summary>
internal sealed class Openings
{
    private readonly OpeningDesign _design;
    private readonly SeededRandom _random;
    private double _untilNextS;
    private double _openForS;

    internal Openings(OpeningDesign design, SeededRandom random)
    {
        _design = design;
        _random = random;
        _untilNextS = random.Exponential(design.MeanBetweenS);
    }

    /// <summary>Whether the contact is open.</summary>
    internal bool IsOpen => _openForS > 0.0;

    /// <summary>How many times it has opened.</summary>
    internal int Count { get; private set; }

    internal void Step(double stepS, bool turning)
    {
        if (IsOpen)
        {
            _openForS -= stepS;
            return;
        }

        if (turning && (_untilNextS -= stepS) <= 0.0)
        {
            Count++;
            _openForS = _random.Between(_design.ShortestS, _design.LongestS);
            _untilNextS = _random.Exponential(_design.MeanBetweenS);
        }
    }
}

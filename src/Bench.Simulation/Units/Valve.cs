using Bench.Model.Rings;
using Bench.Simulation.Chance;

namespace Bench.Simulation.Units;

/// <summary>The valve's friction at every count of its circle, and its index cam.</summary>
internal sealed class Valve
{
    // Smooth unevenness: the first harmonics of the turn.
    private const int Harmonics = 9;

    private readonly ValveDesign _design;
    private readonly Ring _ring;
    private readonly double[] _frictionNm;
    private double _place;

    internal Valve(ValveDesign design, Ring ring, double position)
    {
        _design = design;
        _ring = ring;
        Position = position;
        _place = ring.Place(position);
        double[] roughness = Roughness(new SeededRandom(design.RoughnessSeed));

        // One more than the ring has, so that the step from the last count to the first needs no test.
        _frictionNm = new double[ring.Counts + 1];
        for (int count = 0; count <= ring.Counts; count++)
        {
            _frictionNm[count] = (design.FrictionNm * (1.0 + roughness[count % ring.Counts] + TightSpot(count) + Waves(count)))
                + (design.SeatExtraNm * design.SeatCounts.Sum(s => Hump(count, s, design.SeatReachCounts)));
        }
    }

    /// <summary>Where it stands, counts, not wrapped.</summary>
    internal double Position { get; private set; }

    /// <summary>Friction where it stands, N·m.</summary>
    internal double FrictionNm { get; private set; }

    /// <summary>Whether the index is closed.</summary>
    internal bool IndexClosed =>
        Math.Abs(_ring.Difference(_place, _design.IndexCount)) < _design.IndexWidthCounts / 2.0;

    internal void Move(double counts)
    {
        Position += counts;
        _place += counts;
        if (_place < 0.0 || _place >= _ring.Counts)
        {
            _place = _ring.Place(Position);
        }

        int count = (int)_place;
        double share = _place - count;
        FrictionNm = _frictionNm[count] + (share * (_frictionNm[count + 1] - _frictionNm[count]));
    }

    private double TightSpot(double count) => _design.TightSpot is { } spot
        ? spot.ExtraShare * Hump(count, spot.MiddleCount, spot.WidthCounts / 2.0)
        : 0.0;

    private double Waves(int count) => _design.Waves.Sum(w =>
        w.Share * Math.Cos((2.0 * Math.PI * w.Periods * count / _ring.Counts) + w.PhaseRad));

    // A raised cosine: 1 at the middle, 0 from reach on.
    private double Hump(double count, double middle, double reach)
    {
        double d = Math.Abs(_ring.Difference(count, middle));
        return d >= reach ? 0.0 : 0.5 * (1.0 + Math.Cos(Math.PI * d / reach));
    }

    private double[] Roughness(SeededRandom random)
    {
        double[] r = new double[_ring.Counts];
        for (int h = 1; h <= Harmonics; h++)
        {
            double amplitude = _design.RoughnessShare * random.Normal() * Math.Sqrt(2.0 / Harmonics);
            double phase = random.Between(0.0, 2.0 * Math.PI);
            for (int i = 0; i < r.Length; i++)
            {
                r[i] += amplitude * Math.Cos((2.0 * Math.PI * h * i / r.Length) + phase);
            }
        }

        return r;
    }
}

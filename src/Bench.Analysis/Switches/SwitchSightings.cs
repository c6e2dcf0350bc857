using Bench.Analysis.Sightings;
using Bench.Analysis.Statistics;
using Bench.Model.Features;
using Bench.Model.Profiles;

namespace Bench.Analysis.Switches;

/// <summary>
/// Passes and sightings of every port's switch (C5, applied to switches): like a ring's counts, but few, and a healthy
/// switch is wide enough to be seen in nearly every pass.
/// </summary>
internal sealed class SwitchSightings(Profile profile)
{
    /// <summary>However wide a switch, a healthy one is not certain to be seen.</summary>
    public const double MostProbable = SightingChances.MostProbable;

    /// <summary>Passes from which a switch is judged at all.</summary>
    public const int LeastPasses = RingVerdict.LeastPasses;

    /// <summary>A switch seen at least this share as often as expected is not called weak: its arc may be narrower than nominal.</summary>
    private const double LeastWeakShare = 0.85;

    private readonly int[] _passes = new int[profile.Ports.Count];
    private readonly int[] _sighted = new int[profile.Ports.Count];
    private readonly double[] _expected = new double[profile.Ports.Count];
    private readonly double[] _logMissed = new double[profile.Ports.Count];
    private readonly List<SwitchWidth> _widths = [];
    private readonly List<double> _timeRatios = [];

    /// <summary>Passes over all switches.</summary>
    public int Passes => _passes.Sum();

    /// <summary>Arcs over which switches were closed in whole passes.</summary>
    public IReadOnlyList<SwitchWidth> Widths => _widths;

    /// <summary>Times from port to port, as ratios to a nominal unit's.</summary>
    public IReadOnlyList<double> TimeRatios => _timeRatios;

    /// <summary>Share of the switches passed often enough that a dead one would have been found.</summary>
    public double Coverage => Enumerable.Range(0, _passes.Length).Count(IsTested) / (double)_passes.Length;

    /// <summary>Further revolutions that would bring coverage to what the profile asks, at a pass per revolution.</summary>
    public int RevolutionsToGo
    {
        get
        {
            int[] missing = [.. Enumerable.Range(0, _passes.Length).Select(Missing).Order()];
            return missing[Math.Clamp((int)Math.Ceiling(profile.Demonstration.RingCoverage * missing.Length), 1, missing.Length) - 1];
        }
    }

    /// <summary>Adds a move.</summary>
    public void Add(SwitchCourse course)
    {
        foreach (SwitchPass pass in course.Passes)
        {
            _passes[pass.Port]++;
            _sighted[pass.Port] += pass.Sighted ? 1 : 0;
            _expected[pass.Port] += pass.Probability;
            _logMissed[pass.Port] += Math.Log(1 - pass.Probability);
        }

        _widths.AddRange(course.Widths);
        if (course.TimeRatio is double ratio)
        {
            _timeRatios.Add(ratio);
        }
    }

    /// <summary>
    /// What follows for a port. Weak: seen in so few passes as chance makes of a healthy switch with less than half of
    /// alpha, over all ports (binomial at the mean probability; Hoeffding 1956), yet sometimes.
    /// </summary>
    public SensorState State(int port)
    {
        if (!IsTested(port))
        {
            return SensorState.Untested;
        }

        double alpha = profile.Demonstration.MissedSensorAlpha / 2 / _passes.Length;
        bool tooSeldom = _sighted[port] < LeastWeakShare * _expected[port]
            && BinomialLimits.LowerTail(_sighted[port], _passes[port], _expected[port] / _passes[port]) <= alpha;
        return _sighted[port] == 0 ? SensorState.Dead : tooSeldom ? SensorState.Weak : SensorState.Seen;
    }

    /// <summary>The same as a map of the ring, on which only the ports have entries.</summary>
    public RingMap Map()
    {
        int n = profile.Ring.Counts;
        int[] passes = new int[n];
        int[] sighted = new int[n];
        double[] expected = new double[n];
        SensorState[] states = new SensorState[n];
        for (int port = 0; port < _passes.Length; port++)
        {
            int at = profile.Ports[port].Count;
            (passes[at], sighted[at], expected[at], states[at]) = (_passes[port], _sighted[port], _expected[port], State(port));
        }

        return new RingMap
        {
            Passes = passes,
            Sightings = sighted,
            Expected = expected,
            States = states,
            Coverage = Coverage,
            RevolutionsToGo = RevolutionsToGo,
        };
    }

    private double LogPower => RingVerdict.LogPower(profile.Demonstration, _passes.Length);

    private bool IsTested(int port) => Missing(port) == 0;

    // Passes a port lacks before a dead switch would have been found.
    private int Missing(int port)
    {
        double perPass = _passes[port] > 0 ? _logMissed[port] / _passes[port] : Math.Log(1 - MostProbable);
        double byPower = Math.Ceiling((LogPower - _logMissed[port]) / perPass);
        return (int)Math.Max(0, Math.Max(byPower, LeastPasses - _passes[port]));
    }
}

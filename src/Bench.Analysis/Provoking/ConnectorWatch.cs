using Bench.Model.Features;

namespace Bench.Analysis.Provoking;

/// <summary>
/// Watches feedback and supply while a person moves connector and cable, drive off: when a pair of wires opened and for how
/// long, and, second by second, whether one did.
/// </summary>
/// <remarks>
/// A second counts as a trial of the stage's sequential test (C11): whole seconds only, one in which a pair was open at any
/// time fails. A dropout is two readings in a row or more; one may be a frame lost on the bus.
/// </remarks>
/// <param name="fromS">When the person began, seconds.</param>
/// <param name="leastSupplyV">Voltage below which the supply counts as dropped out, volts.</param>
public sealed class ConnectorWatch(double fromS, double leastSupplyV)
{
    /// <summary>Length of a trial, seconds.</summary>
    public const double TrialS = 1;

    private const int LeastReadings = 2;

    private readonly List<ConnectorDropout> _dropouts = [];
    private readonly Opening _feedback = new(ConnectorPair.Feedback);
    private readonly Opening _supply = new(ConnectorPair.Supply);
    private double _trialBeganS = fromS;
    private bool _opened;
    private double _lastS = fromS;

    /// <summary>Dropouts that have ended, in order.</summary>
    public IReadOnlyList<ConnectorDropout> Dropouts => _dropouts;

    /// <summary>Takes one pass of readings.</summary>
    /// <param name="timeS">When the position was asked for, seconds, not before the last.</param>
    /// <param name="heard">Whether the feedback answered.</param>
    /// <param name="witnessed">Whether the bench's own devices answered right after; only then is a silence the unit's.</param>
    /// <param name="supplyV">Voltage at the bench's terminals; null when it was not read.</param>
    /// <returns>Trials that ended with it, each whether it passed.</returns>
    public IReadOnlyList<bool> Take(double timeS, bool heard, bool witnessed, double? supplyV)
    {
        List<bool> ended = [];
        for (; timeS - _trialBeganS >= TrialS; _trialBeganS += TrialS)
        {
            ended.Add(!_opened);
            _opened = _feedback.IsOpen || _supply.IsOpen;
        }

        _lastS = timeS;
        if (heard)
        {
            Close(_feedback, timeS);
        }
        else if (witnessed)
        {
            _feedback.Add(timeS);
        }

        if (supplyV is double volt && volt < leastSupplyV)
        {
            _supply.Add(timeS);
        }
        else if (supplyV is not null)
        {
            Close(_supply, timeS);
        }

        _opened |= _feedback.IsOpen || _supply.IsOpen;
        return ended;
    }

    /// <summary>The person has stopped: what is still open ends here.</summary>
    public void End()
    {
        Close(_feedback, _lastS);
        Close(_supply, _lastS);
    }

    private void Close(Opening opening, double timeS)
    {
        if (opening.IsOpen)
        {
            _dropouts.Add(new ConnectorDropout(opening.Pair, opening.SinceS, timeS - opening.SinceS));
        }

        opening.Clear();
    }

    private sealed class Opening(ConnectorPair pair)
    {
        private int _readings;

        public ConnectorPair Pair => pair;

        public double SinceS { get; private set; }

        public bool IsOpen => _readings >= LeastReadings;

        public void Add(double timeS)
        {
            SinceS = _readings++ == 0 ? timeS : SinceS;
        }

        public void Clear() => _readings = 0;
    }
}

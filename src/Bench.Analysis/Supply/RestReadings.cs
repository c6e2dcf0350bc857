using Bench.Analysis.Readings;
using Bench.Model.Instruments;
using Bench.Model.Traces;

namespace Bench.Analysis.Supply;

/// <summary>What was read with the drive off and the unit at rest, gathered as samples come in.</summary>
internal sealed class RestReadings
{
    /// <summary>Time after the drive went off before the unit counts as at rest, seconds. Common practice, no source.</summary>
    private const double RestS = 0.3;

    private readonly List<double> _currents = [];
    private readonly List<double> _voltages = [];
    private readonly List<int> _counts = [];
    private double _lastOnS = double.NegativeInfinity;

    /// <summary>Currents, amperes.</summary>
    public IReadOnlyList<double> CurrentsA => _currents;

    /// <summary>Voltages, volts.</summary>
    public IReadOnlyList<double> VoltagesV => _voltages;

    /// <summary>Counts before the drive was first on.</summary>
    public IReadOnlyList<int> CountsBeforeMotion => _counts;

    /// <summary>Gathers them from the next samples of a run.</summary>
    /// <param name="samples">Samples in order.</param>
    /// <param name="marks">Theirs.</param>
    /// <param name="firstOnS">When the drive was first on, seconds; infinite when it never was.</param>
    public void Add(ReadOnlySpan<Sample> samples, in SampleMarks marks, double firstOnS)
    {
        // Most samples are of moves.
        if (!marks.AnyOff)
        {
            _lastOnS = samples.IsEmpty ? _lastOnS : samples[^1].TimeS;
            return;
        }

        foreach (ref readonly Sample s in samples)
        {
            if (s.Drive != DriveState.Off)
            {
                _lastOnS = s.TimeS;
            }
            else if (s.TimeS - _lastOnS >= RestS)
            {
                if (s.HasMeters && double.IsFinite(s.CurrentA) && double.IsFinite(s.VoltageV))
                {
                    _currents.Add(s.CurrentA);
                    _voltages.Add(s.VoltageV);
                }

                if (s.HasCount && s.TimeS < firstOnS)
                {
                    _counts.Add(s.Count);
                }
            }
        }
    }
}

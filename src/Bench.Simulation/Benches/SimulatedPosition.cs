using Bench.Model.BenchFiles;
using Bench.Simulation.Chance;
using Bench.Simulation.Conditions;
using Bench.Simulation.Units;

namespace Bench.Simulation.Benches;

/// <summary>One unit position: the plant behind it, and the meters before it.</summary>
internal sealed class SimulatedPosition
{
    /// <summary>Arc over which a port's switch is closed where the profile does not say, counts: near enough to call it the port.</summary>
    private const double UsualSwitchWidthCounts = 10.0;

    private readonly UnitPositionDescription _description;
    private readonly SimulatedUnit? _unit;
    private readonly SeededRandom _currentNoise;
    private readonly SeededRandom _voltageNoise;
    private readonly MeterDesign _meters = new();

    internal SimulatedPosition(UnitPositionDescription description, SimulatedUnit? unit, SeededRandom benchRandom)
    {
        _description = description;
        _unit = unit;
        _currentNoise = benchRandom.Fork($"current meter {description.Name}");
        _voltageNoise = benchRandom.Fork($"voltage meter {description.Name}");
        if (unit is not null)
        {
            SeededRandom random = new(unit.Seed);
            Installation sound = Installation.Of(NominalUnit.Of(unit.Profile).Spread(unit.Seed));
            Installation installation = unit.Condition.Apply(unit.Mismatch?.Apply(sound) ?? sound, random.Fork("condition"));
            _meters = installation.Meters;
            LineErrorShare = installation.LineErrorShare;
            double start = random.Fork("start").Between(0.0, unit.Profile.Ring.Counts);
            Plant = new Plant(installation.Unit, installation.Supply, RelayDesign.Usual, start, random.Fork("running"), _meters.WindowS);
            Controller = installation.Unit.Controller is { } controller
                ? new UnitController(controller, unit.Profile.Ring, Plant.ReportedCount)
                : null;
        }
    }

    internal string Name => _description.Name;

    /// <summary>The plant; null when the position is empty.</summary>
    internal Plant? Plant { get; }

    /// <summary>The unit's own controller; null for a unit that the bench drives.</summary>
    internal UnitController? Controller { get; }

    /// <summary>Brings the unit to an instant, its controller looking on the way as often as it does.</summary>
    internal void AdvanceTo(double timeS)
    {
        if (Plant is null)
        {
            return;
        }

        if (Controller is not null)
        {
            // Without power it has let go of its motor, and nothing more will come of looking.
            Controller.Act(Plant);
            for (double nextS = Plant.TimeS + UnitController.PeriodS; Controller.Powered && nextS < timeS; nextS += UnitController.PeriodS)
            {
                Plant.AdvanceTo(nextS);
                Controller.Act(Plant);
            }
        }

        Plant.AdvanceTo(timeS);
    }

    /// <summary>How its current meter fails.</summary>
    internal MeterFailure CurrentMeter { get; set; }

    internal double LineErrorShare { get; }

    /// <summary>What the unit's count is read as: the ring's count, or a counter's.</summary>
    internal long RawCount()
    {
        if (Plant is null)
        {
            return 0;
        }

        if (_description.Counter is not { } counter || _unit is null)
        {
            return Plant.ReportedCount;
        }

        double turned = Plant.CountedPosition * counter.CountsPerRevolution / _unit.Profile.Ring.Counts;
        long count = (long)Math.Floor(turned + 0.5) * (counter.Reversed ? -1 : 1);
        return count & ((1L << counter.Bits) - 1);
    }

    /// <summary>Whether the switch of a port is closed.</summary>
    internal bool SwitchClosed(string port)
    {
        if (Plant is null || _unit is not { Profile: var profile })
        {
            return false;
        }

        int number = profile.Ports.ToList().FindIndex(p => p.Name == port);
        double reach = (profile.SwitchWidthCounts ?? UsualSwitchWidthCounts) / 2;
        return number >= 0 && !Plant.Feedback.OpenSwitches.Contains(number)
            && (Plant.Feedback.ClosedSwitches.Contains(number)
                || Math.Abs(profile.Ring.Difference(Plant.CountedPosition, profile.Ports[number].Count)) < reach);
    }

    internal bool FeedbackAnswers => Plant is { FeedbackAnswers: true };

    /// <exception cref="InvalidOperationException">The meter can't be read; the board answers so.</exception>
    internal double RegisterCurrent() => CurrentMeter switch
    {
        MeterFailure.Refuses => throw new InvalidOperationException("the current meter does not answer its board"),
        MeterFailure.Dead => Measured(_description.Current, 0.0, _currentNoise),
        _ => MeasuredCurrent(),
    };

    /// <summary>Current as an instrument with this meter's uncertainty measures it, before scale and offset.</summary>
    internal double MeasuredCurrent() => Measured(_description.Current, Plant?.SupplyCurrentA ?? 0.0, _currentNoise);

    /// <summary>As <see cref="MeasuredCurrent"/>, voltage.</summary>
    internal double MeasuredVoltage() => Measured(_description.Voltage, Plant?.TerminalV ?? 0.0, _voltageNoise);

    // The inverse of the meter's scale, with its stated uncertainty as noise.
    private double Measured(MeterDescription meter, double value, SeededRandom noise)
    {
        double shown = _meters.Shown(
            value + (meter.StandardUncertainty * noise.Normal()), meter.StandardUncertainty, Plant?.TimeS ?? 0.0);
        return (shown - meter.Offset) / meter.Scale;
    }
}

using Bench.Model.BenchFiles;
using Bench.Simulation.Chance;
using Bench.Simulation.Conditions;
using Bench.Simulation.Units;

namespace Bench.Simulation.Benches;

/// <summary>One unit position: the plant behind it, and the meters before it.</summary>
internal sealed class SimulatedPosition
{
    private readonly UnitPositionDescription _description;
    private readonly SeededRandom _currentNoise;
    private readonly SeededRandom _voltageNoise;

    internal SimulatedPosition(UnitPositionDescription description, SimulatedUnit? unit, SeededRandom benchRandom)
    {
        _description = description;
        _currentNoise = benchRandom.Fork($"current meter {description.Name}");
        _voltageNoise = benchRandom.Fork($"voltage meter {description.Name}");
        if (unit is not null)
        {
            SeededRandom random = new(unit.Seed);
            Installation installation = unit.Condition.Apply(
                Installation.Of(NominalUnit.Of(unit.Profile).Spread(unit.Seed)), random.Fork("condition"));
            LineErrorShare = installation.LineErrorShare;
            Plant = new Plant(
                installation.Unit,
                installation.Supply,
                RelayDesign.Usual,
                random.Fork("start").Between(0.0, unit.Profile.Ring.Counts),
                random.Fork("running"));
        }
    }

    internal string Name => _description.Name;

    /// <summary>The plant; null when the position is empty.</summary>
    internal Plant? Plant { get; }

    /// <summary>How its current meter fails.</summary>
    internal MeterFailure CurrentMeter { get; set; }

    internal double LineErrorShare { get; }

    internal bool FeedbackAnswers => Plant is { FeedbackAnswers: true };

    /// <exception cref="InvalidOperationException">The meter can't be read; the board answers so.</exception>
    internal int RawCurrent() => CurrentMeter switch
    {
        MeterFailure.Refuses => throw new InvalidOperationException("the current meter does not answer its board"),
        MeterFailure.Dead => Raw(_description.Current, 0.0, _currentNoise),
        _ => Raw(_description.Current, Plant?.SupplyCurrentA ?? 0.0, _currentNoise),
    };

    internal int RawVoltage() => Raw(_description.Voltage, Plant?.TerminalV ?? 0.0, _voltageNoise);

    // The inverse of the meter's scale, with its stated uncertainty as noise; what a register cannot hold is clipped.
    private static int Raw(MeterDescription meter, double value, SeededRandom noise)
    {
        double raw = Math.Round((value + (meter.StandardUncertainty * noise.Normal()) - meter.Offset) / meter.Scale);
        return meter.Signed
            ? (int)Math.Clamp(raw, short.MinValue, short.MaxValue)
            : (int)Math.Clamp(raw, ushort.MinValue, ushort.MaxValue);
    }
}

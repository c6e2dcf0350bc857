namespace Bench.Simulation.Conditions;

/// <summary>The conditions there are.</summary>
public static class ConditionCatalog
{
    /// <summary>All of them, the healthy one first.</summary>
    public static IReadOnlyList<ICondition> All { get; } =
    [
        new Healthy(),
        new DeadSensors(),
        new ContaminatedSensors(),
        new CouplingSlip(),
        new DriftingZero(),
        new Backlash(),
        new SeizedValve(),
        new SeizedMotor(),
        new OpenWinding(),
        new WornBrushes(),
        new ContactResistance(),
        new IntermittentConnector(),
        new DeadFeedback(),
        new NoisyLink(),
        new TightSpotAwayFromPorts(),
        new StrippedGear(),
        new LowBenchSupply(),
        new DeadSwitch(),
        new StuckSwitch(),
        new DeafController(),
        new BesideTarget(),
        new HangingBrush(),
        new StickingSeal(),
        new WeakRegulator(),
        new StrainedCable(),
        new WarmOpenWinding(),
    ];

    /// <summary>Finds a condition by its id.</summary>
    /// <param name="id">
    /// An id of <see cref="All"/>; <c>dead-feedback:frozen</c> and <c>dead-feedback:silent</c> name the variants.
    /// </param>
    /// <exception cref="ArgumentException">There is no such condition; the message names all there are.</exception>
    public static ICondition Find(string id) => id switch
    {
        "dead-feedback:frozen" => new DeadFeedback(DeadFeedbackVariant.Frozen),
        "dead-feedback:silent" => new DeadFeedback(DeadFeedbackVariant.Silent),
        _ => All.FirstOrDefault(c => c.Id == id) ?? throw new ArgumentException(
            $"there is no condition '{id}'; there are: {string.Join(", ", All.Select(c => c.Id))}", nameof(id)),
    };
}

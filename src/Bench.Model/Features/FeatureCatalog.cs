namespace Bench.Model.Features;

/// <summary>Every feature the analysis computes. A profile's limits may name these and no others.</summary>
public static class FeatureCatalog
{
    /// <summary>All definitions, in the order they are shown.</summary>
    public static IReadOnlyList<FeatureDefinition> All { get; } =
    [
        new("bench.supply_open_v", "V", "Supply, unloaded", "Median supply voltage with the drive off.", OfBench: true),
        new("bench.supply_source_ohm", "Ω", "Source resistance", "Fall of supply voltage per ampere under load: supply, fuse and leads up to the voltage meter.", OfBench: true),
        new("bench.link_error_share", "1", "Link errors", "Share of exchanges with the bench's own devices that failed.", OfBench: true),
        new("bench.calibration_overdue_days", "d", "Calibration overdue", "Days since the earliest due date of the meters and gauge studies used; 0 when none has passed.", OfBench: true, Counted: true),
        new("feedback.silent_share", "1", "Feedback silent", "Share of position readings that failed while the bench's own devices on the same link answered."),
        new("feedback.silent_s", "s", "Longest silence", "Longest time in which every position reading failed while the bench's own devices answered."),
        new("feedback.dropouts", "1", "Feedback dropouts", "Episodes of two or more position readings in a row that failed while the bench's own devices answered.", Counted: true),
        new("feedback.off_ring", "1", "Counts off the ring", "Readings whose count is not on the ring.", Counted: true),
        new("feedback.wander_counts", "count", "Count at rest", "Greatest change of the count while the drive was off and the unit at rest.", Counted: true),
        new("motion.locked_moves", "1", "Locked", "Moves in which current stood near stall while the count stood still.", Counted: true),
        new("motion.no_current_moves", "1", "No current", "Moves in which the drive was on and almost no current flowed.", Counted: true),
        new("motion.free_running_moves", "1", "Motor runs free", "Moves in which current stood near that of the bare motor while the count stood still.", Counted: true),
        new("motion.count_still_moves", "1", "Count stands still", "Moves in which current was that of a turning valve while the count stood still.", Counted: true),
        new("motion.still_share", "1", "Moves it stood still in", "Share of moves in which the count stood still under drive: near 1 always, near 0 now and then. Computed where the profile names it.", Counted: true, OnlyWhereNamed: true),
        new("motion.locked_share", "1", "Moves it was locked in", "Share of moves in which current stood near stall while the count stood still: near 1 seized, near 0 sticking now and then. Computed where the profile names it.", Counted: true, OnlyWhereNamed: true),
        new("motion.no_current_in_a_row", "1", "No current in a row", "Most moves in a row, made to provoke a fault or not, in which almost no current flowed: what opens by warmth stays open until it has cooled, a brush that hangs does not. Computed where the profile names it.", Counted: true, OnlyWhereNamed: true),
        new(UncoupledFeatures.Locked, "1", "Locked, valve off", "1 when the motor stood still at stall current with the valve taken off, 0 when it turned.", Counted: true),
        new(UncoupledFeatures.Free, "1", "Free, valve off", "1 when a unit that is locked with its valve turned with it taken off, 0 when it did not.", Counted: true),
        new("landing.error_counts", "count", "Landing error", "Mean landing error at a port without the bench's own share."),
        new("landing.repeatability_counts", "count", "Repeatability", "Repeatability R of landings over all ports (ISO 230-2)."),
        new("landing.accuracy_counts", "count", "Accuracy", "Accuracy A of landings over all ports (ISO 230-2)."),
        new("landing.reversal_counts", "count", "Reversal of landings", "Reversal value B of landings: greatest difference between the means from both sides of a port (ISO 230-2). Computed where the profile names it.", OnlyWhereNamed: true),
        new("landing.systematic_counts", "count", "Systematic deviation", "Systematic positional deviation E of landings over all ports (ISO 230-2). Computed where the profile names it.", OnlyWhereNamed: true),
        new("landing.drift_counts_per_100_moves", "count", "Drift of landings", "Slope of the landing error over the run, ports and sides each for itself, per 100 moves. Computed where the profile names it.", OnlyWhereNamed: true),
        new("landing.step_counts", "count", "Step of landings", "Change of the landing error within the run, lasting or for a while. Computed where the profile names it.", OnlyWhereNamed: true),
        new("index.reversal_counts", "count", "Reversal at the shaft", "Difference of the index between travel up and down: play between encoder and shaft."),
        new("index.shift_counts", "count", "Shift at the shaft", "Change of the index against the encoder from the first to the last part of the run."),
        new("index.step_counts", "count", "Step at the shaft", "Greatest change of the index against the encoder between consecutive passes in one direction."),
        new("index.drift_counts_per_100_moves", "count", "Drift at the shaft", "Slope of the index against the encoder (Theil-Sen), per 100 moves."),
        new("index.home_shift_counts", "count", "Home", "Counts by which the home taken at the first reading lay off the one taken from the index, which the run then went by."),
        new("ripple.speed_ratio", "1", "Motor's speed over the count's", "Speed of the motor by the ripple of its current, as a ratio to that of the count. Computed where the profile names it.", OnlyWhereNamed: true),
        new("ripple.slip_counts", "count", "Slip by ripple", "Greatest difference in a move between the travel by ripple of the current and by the count. Computed where the profile names it.", OnlyWhereNamed: true),
        new("seat.step_counts", "count", "Step of the seats", "Change of the places of the seats' torque against the count within the run, lasting or for a while. Computed where the profile names it.", OnlyWhereNamed: true),
        new("seat.drift_counts_per_100_moves", "count", "Drift of the seats", "Slope of the places of the seats' torque against the count over the run, per 100 moves. Computed where the profile names it.", OnlyWhereNamed: true),
        new("count.jump_counts", "count", "Jump of the count", "Greatest jump of the count that persists and that speed and time do not explain."),
        new("ring.dead_counts", "1", "Sensors never seen", "Counts that were passed often enough to be seen and never were.", Counted: true),
        new("ring.weak_counts", "1", "Sensors seen too seldom", "Counts in arcs that were seen less often than sampling allows, yet sometimes.", Counted: true),
        new("ring.coverage", "1", "Ring tested", "Share of the ring, or of its port switches, passed often enough to find a dead one with the stated power.", Counted: true),
        new("switch.dead_ports", "1", "Switches never closed", "Ports passed often enough for their switch to be seen closed, and it never was.", Counted: true),
        new("switch.weak_ports", "1", "Switches closing too seldom", "Ports whose switch closed in fewer passes than sampling allows, yet sometimes.", Counted: true),
        new("switch.contradictions", "1", "Two switches closed", "Episodes of two or more readings in a row with more than one port's switch closed.", Counted: true),
        new("switch.width_ratio", "1", "Closing width", "Median arc over which a port's switch was closed in a pass, as a ratio to the nominal one."),
        new("switch.travel_time_ratio", "1", "Port-to-port time", "Median time from one port's switch to another's, as a ratio to that of a nominal unit."),
        new("current.off_a", "A", "Current, drive off", "Median current with the drive off."),
        new("current.inrush_a", "A", "Inrush", "Peak current after switching on."),
        new("current.running_a", "A", "Running current", "Median current while turning."),
        new("current.noise_a", "A", "Current noise", "Robust standard deviation of current about its course while turning."),
        new("current.interruptions", "1", "Current interruptions", "Times the current vanished while the drive was on and came back.", Counted: true),
        new("current.tight_spot_ratio", "1", "Tight spot", "Greatest current over an arc, away from the ports, as a ratio to the running current."),
        new("current.drift_a_per_100_moves", "A", "Drift of running current", "Slope of the running current over the run, travels each for itself, per 100 moves. Computed where the profile names it.", OnlyWhereNamed: true),
        new("current.step_a", "A", "Step of running current", "Change of the running current within the run, lasting or for a while. Computed where the profile names it.", OnlyWhereNamed: true),
        new(UncoupledFeatures.Current, "A", "Current, valve off", "Median current at the end of the move with the valve taken off."),
        new("winding.resistance_ohm", "Ω", "Resistance seen from the bench", "Winding, brushes and contacts in series, from voltage, current and speed."),
        new("winding.rise_k", "K", "Temperature rise of the winding", "Rise of the winding's temperature from the first moves to those of the warm stage, by its resistance. Computed where the profile names it.", OnlyWhereNamed: true),
        new("motor.resistance_ohm", "Ω", "Fitted resistance", "Resistance of winding, brushes and contacts, fitted with the back-EMF constant to all steady states. Computed where the profile names it.", OnlyWhereNamed: true),
        new("motor.back_emf_v_s_per_rad", "V·s/rad", "Back-EMF constant", "Back-EMF constant at the motor shaft, in SI units also the torque constant, fitted to all steady states. Computed where the profile names it.", OnlyWhereNamed: true),
        new("motor.friction_nm", "N·m", "Friction torque", "Torque the motor gives at its mean running speed, at its own shaft. Computed where the profile names it.", OnlyWhereNamed: true),
        new("speed.running_counts_per_s", "count/s", "Speed", "Median speed while turning, carried to nominal supply."),
        new("energy.per_revolution_j", "J", "Energy", "Electrical energy per revolution."),
        new("coast.counts", "count", "Coast", "Median travel after switching off."),
        new("demonstration.failed_moves", "1", "Failed moves", "Moves that did not do what was commanded, for the unit's part.", Counted: true),
        new(ProvokedFeatures.NoCurrent, "1", "No current, provoked", "Moves made to provoke a fault, of whatever stage, in which almost no current flowed. Computed where the profile names it.", Counted: true, OnlyWhereNamed: true),
        new(ProvokedFeatures.FailedStarts, "1", "Failed starts", "Short starts, made to provoke a fault, in which the unit did not turn or its current or feedback broke off. Computed where the profile names it.", Counted: true, OnlyWhereNamed: true),
        new(ProvokedFeatures.FailedAtLowSupply, "1", "Failed at low supply", "Moves at the least supply that a unit is tested at in which it did not turn or its current or feedback broke off. Computed where the profile names it.", Counted: true, OnlyWhereNamed: true),
        new(ProvokedFeatures.FailedAtHighSupply, "1", "Failed at high supply", "Moves at the greatest supply that a unit is tested at in which it did not turn or its current or feedback broke off. Computed where the profile names it.", Counted: true, OnlyWhereNamed: true),
        new(ProvokedFeatures.ConnectorDropouts, "1", "Dropouts, connector moved", "Seconds in which the feedback fell silent or the supply dropped out while a person moved connector and cable, drive off. Computed where the profile names it.", Counted: true, OnlyWhereNamed: true),
        new(ProvokedFeatures.FailedWarm, "1", "Failed when warm", "Moves with the winding warm in which the unit did not turn or its current or feedback broke off. Computed where the profile names it.", Counted: true, OnlyWhereNamed: true),
    ];

    private static readonly Dictionary<string, FeatureDefinition> ByName = All.ToDictionary(d => d.Name, StringComparer.Ordinal);

    /// <summary>The definition of a feature; of an inspection item, too.</summary>
    /// <exception cref="ArgumentException">There is none of that name.</exception>
    public static FeatureDefinition Get(string name) =>
        ByName.TryGetValue(name, out FeatureDefinition? definition)
            ? definition
            : InspectionFeatures.Item(name) is string item
            ? InspectionFeatures.Define(item)
            : throw new ArgumentException($"there is no feature '{name}'", nameof(name));

    /// <summary>Whether there is a feature of that name, computed or of an inspection item.</summary>
    public static bool Knows(string name) => ByName.ContainsKey(name) || InspectionFeatures.Item(name) is not null;
}

using Bench.Model.Features;

namespace Bench.Analysis.Judging;

/// <summary>Sayings of the features that a profile may hold against a unit or a bench. Where to look: common practice, no source.</summary>
internal static class Sayings
{
    private static readonly Dictionary<string, Saying> ByFeature = new(StringComparer.Ordinal)
    {
        ["bench.supply_open_v"] = new("the supply, unloaded, stands at {0}", "the bench's supply and its setting"),
        ["bench.supply_source_ohm"] = new("the supply gives way under load as if {0} were in series", "the bench's supply, fuse and leads"),
        ["bench.link_error_share"] = new("{0} of the exchanges with the bench's own devices failed", "the bench's bus: wiring, termination, adapter"),
        ["bench.calibration_overdue_days"] = new("the calibration of a meter, or a gauge study, is overdue by {0}", "the bench's calibration plan"),
        ["feedback.silent_s"] = new("the feedback was silent for {0} on end", "the feedback's supply and connector, then the sensor ring"),
        ["feedback.dropouts"] = new("the feedback dropped out {0} [time|times] while the bench's own devices answered", "the feedback connector and its cable"),
        ["feedback.off_ring"] = new("{0} [reading gave a count|readings gave counts] that the ring does not have", "the sensor ring"),
        ["feedback.wander_counts"] = new("at rest, drive off, the count changed by {0}", "the sensor ring"),
        ["motion.locked_moves"] = new("the unit stood still at stall current in {0} [move|moves]", "valve, motor and gear"),
        ["motion.no_current_moves"] = new("the drive was on and almost no current flowed in {0} [move|moves]", "supply contacts, brushes, winding"),
        ["motion.free_running_moves"] = new("the motor ran free while the count stood still in {0} [move|moves]", "gear and coupling"),
        ["motion.count_still_moves"] = new("the unit turned, as its current says, while the count stood still in {0} [move|moves]", "the sensor ring"),
        ["motion.still_share"] = new("under drive the count stood still in {0} of moves", "what the findings on standing moves name: it is there always, not now and then"),
        ["motion.locked_share"] = new("the unit stood still at stall current in {0} of moves", "valve, motor and gear: it is seized"),
        ["motion.no_current_in_a_row"] = new("no current flowed in {0} [move|moves] in a row", "winding and leads for what opens as it warms, rather than at a brush that hangs"),
        [UncoupledFeatures.Locked] = new("with the valve off the unit still stood at stall current", "motor and gear"),
        [UncoupledFeatures.Free] = new("with the valve off the unit turned, so the valve had held it", "the valve"),
        [ProvokedFeatures.NoCurrent] = new("in {0} [move|moves] made to provoke it almost no current flowed", "brushes, winding and supply contacts"),
        [ProvokedFeatures.FailedStarts] = new("in short starts made to provoke it the unit failed {0} [time|times]", "brushes and commutator, then supply pin and feedback connector"),
        [ProvokedFeatures.FailedAtLowSupply] = new("at the least supply it is tested at the unit failed {0} [time|times]", "valve and gear for what sticks, then brushes and supply contacts"),
        [ProvokedFeatures.ConnectorDropouts] = new("while a person moved connector and cable, contact was lost in {0} [second|seconds]", "the connector's pins and crimps, then the cable where it bends"),
        [ProvokedFeatures.FailedWarm] = new("with its winding warm the unit failed {0} [time|times]", "winding and brush leads for what opens when it expands"),
        [ProvokedFeatures.FailedAtHighSupply] = new("at the greatest supply it is tested at the unit failed {0} [time|times]", "the feedback's own supply, then brushes and their suppression"),
        ["landing.error_counts"] = new("it lands {0} off on average", "the sensor ring"),
        ["landing.repeatability_counts"] = new("landings at one port lie up to {0} apart", "the sensor ring"),
        ["landing.accuracy_counts"] = new("landings lie within a band of {0} over all ports", "the sensor ring"),
        ["landing.reversal_counts"] = new("landings from above and from below lie {0} apart", "the coupling"),
        ["index.reversal_counts"] = new("between travel up and down the shaft lags the count by {0}", "the coupling: play"),
        ["index.step_counts"] = new("the shaft stepped by {0} against the count", "the coupling: slip"),
        ["index.shift_counts"] = new("from begin to end the shaft shifted by {0} against the count", "the coupling, and the fixing of the sensor ring"),
        ["index.drift_counts_per_100_moves"] = new("the shaft drifts against the count by {0} in 100 moves", "the fixing of the sensor ring"),
        ["ripple.speed_ratio"] = new("the motor turns {0} times as far as the count says", "the sensor ring, then gear and coupling before it"),
        ["ripple.slip_counts"] = new("in one move motor and count parted by {0}", "gear and coupling before the sensor ring"),
        ["seat.step_counts"] = new("the valve's seats stepped by {0} against the count", "the coupling: slip"),
        ["seat.drift_counts_per_100_moves"] = new("the valve's seats drift against the count by {0} in 100 moves", "the coupling, and the fixing of the sensor ring"),
        ["count.jump_counts"] = new("the count jumped by {0} that speed and time do not explain", "the sensor ring"),
        ["ring.dead_counts"] = new("{0} [sensor was|sensors were] passed often enough and never seen", "the sensor ring", "at the counts in the packet's plot"),
        ["ring.weak_counts"] = new("{0} [sensor is|sensors are] seen too seldom", "the sensor ring and the seal above it", "at the counts in the packet's plot"),
        ["switch.dead_ports"] = new("{0} port [switch|switches] never closed", "the switches and their wires"),
        ["switch.weak_ports"] = new("{0} port [switch closes|switches close] too seldom", "the switches and their wires"),
        ["switch.contradictions"] = new("two port switches were closed at once, {0} [time|times]", "the switches and their wires"),
        ["switch.width_ratio"] = new("the switches close over {0} times the nominal arc", "the switches and their cam"),
        ["switch.travel_time_ratio"] = new("from port to port it takes {0} times the nominal time", "gear and valve"),
        ["current.off_a"] = new("with the drive off {0} flow", "the bench's current meter and its wiring"),
        ["current.running_a"] = new("while turning it draws {0}", "the valve: friction"),
        ["current.noise_a"] = new("while turning the current scatters by {0}", "the brushes"),
        ["current.interruptions"] = new("the current vanished and came back {0} [time|times]", "supply pin and brushes"),
        ["current.tight_spot_ratio"] = new("over one arc the current is {0} times that of the rest", "the valve", "at the angle in the packet's plot"),
        ["winding.resistance_ohm"] = new("the bench sees a resistance of {0}", "supply contacts, then the brushes"),
        ["speed.running_counts_per_s"] = new("it turns at {0}", "supply contacts, brushes and valve"),
    };

    /// <summary>The saying of a feature; null where there is none.</summary>
    public static Saying? Of(string feature) => ByFeature.GetValueOrDefault(feature);
}

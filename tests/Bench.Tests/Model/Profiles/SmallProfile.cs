namespace Bench.Tests.Model.Profiles;

/// <summary>The least profile that is valid, for tests that break it in one place.</summary>
internal static class SmallProfile
{
    public const string Text = """
        schema = 1
        [family]
        id = "drip-gate-2"
        title = "Drip gate"
        version = "1.0.0"
        author = "Test engineering"
        part_numbers = ["DG2"]
        [unit]
        ring_counts = 100
        drive = "reversing"
        feedback = "ring"
        index_width_counts = 10
        [[port]]
        name = "A"
        count = 0
        [[port]]
        name = "B"
        count = 50
        [electrical]
        supply_nominal_v = 24.0
        supply_min_v = 20.4
        supply_max_v = 28.8
        winding_ohm = 12.0
        torque_constant_nm_per_a = 0.045
        no_load_current_a = 0.05
        stall_current_a = 2.0
        running_current_a = 0.22
        gear_ratio = 230
        running_speed_counts_per_s = 50
        [safety]
        over_current_a = 2.6
        dead_time_ms = 60
        no_motion_ms = 400
        feedback_lost_ms = 120
        most_on_ms = 9000
        most_duty = 0.85
        duty_window_s = 60
        [[stage]]
        kind = "supply"
        most_s = 2
        [[stage]]
        kind = "homing"
        most_s = 60
        revolutions = 2
        settle_ms = 350
        [[stage]]
        kind = "port-moves"
        most_s = 100
        most_moves = 20
        settle_ms = 351
        [[limit]]
        feature = "bench.supply_open_v"
        lower = 20.5
        upper = 28.5
        rule = "guarded"
        severity = "hold"
        [[limit]]
        feature = "feedback.dropouts"
        upper = 0
        rule = "simple"
        severity = "repair"
        remedy = "exchange-connector"
        [demonstration]
        p0 = 0.005
        p1 = 0.08
        alpha = 0.05
        beta = 0.06
        most_moves = 120
        ring_coverage = 0.98
        missed_sensor_alpha = 0.07
        [economics]
        currency = "credits"
        replacement_cost = 310
        labour_per_hour = 54
        greatest_repair_fraction = 0.5
        [[remedy]]
        id = "exchange-connector"
        work = "Exchange the connector"
        parts_cost = 9
        minutes = 25
        order = 1
        [[fault]]
        id = "none"
        name = "No fault"
        prior = 0.75
        explains_feedback_fault = false
        [[fault]]
        id = "intermittent-connector"
        name = "Intermittent connector"
        prior = 0.25
        explains_feedback_fault = true
        next_check = "Flex the cable"
        expect = "The feedback drops out"
        [fault.shows]
        feedback.dropouts = 0.95
        """;
}

namespace Bench.Tests.Model.BenchFiles;

/// <summary>A small bench file that is valid, for tests that break it in one place.</summary>
internal static class SmallBench
{
    public const string Text = """
        schema = 1
        [bench]
        name = "Greenhouse bench"
        supply_current_limit_a = 3.0
        [[link]]
        name = "bus"
        kind = "serial"
        protocol = "modbus-rtu"
        port = "/dev/bench"
        baud = 115200
        [[link]]
        name = "net"
        kind = "tcp"
        protocol = "modbus-tcp"
        host = "192.0.2.10"
        [[device]]
        name = "io"
        link = "bus"
        address = 1
        timeout_ms = 40
        [[device]]
        name = "feedback"
        link = "bus"
        address = 11
        timeout_ms = 41
        [[position]]
        name = "left"
        drive = "reversing"
        up = { device = "io", coil = 0 }
        down = { device = "io", coil = 1 }
        feedback = "ring"
        count = { device = "feedback", input_register = 0 }
        index = { device = "io", input_register = 2, bit = 0 }
        [position.current]
        device = "io"
        input_register = 3
        scale_a = 0.001
        standard_uncertainty_a = 0.004
        calibrated_on = 2026-03-02
        calibration_due_on = 2027-03-02
        certificate = "GB-1"
        [position.voltage]
        device = "io"
        input_register = 4
        scale_v = 0.001
        standard_uncertainty_v = 0.02
        calibrated_on = 2026-03-03
        calibration_due_on = 2027-03-03
        certificate = "GB-2"
        """;
}

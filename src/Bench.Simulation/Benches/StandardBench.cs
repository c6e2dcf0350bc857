using System.Globalization;
using System.Text;
using Bench.Model.Profiles;

namespace Bench.Simulation.Benches;

/// <summary>
/// Writes the bench file of a common bench: one link, an I/O board at address 1, and one feedback per unit at 11, 12, …;
/// meters and inputs of a position side by side, so that one read takes them all, and a watchdog in holding register 0. Positions are <c>position-1</c> and so on.
/// </summary>
public static class StandardBench
{
    /// <summary>Name of the link.</summary>
    public const string Link = "bus";

    /// <summary>Name of the I/O board.</summary>
    public const string Board = "io";

    /// <summary>Most positions: feedback addresses 11 to 99.</summary>
    public const int MostPositions = 89;

    /// <summary>Time of the board's watchdog, milliseconds.</summary>
    public const int WatchdogMs = 1000;

    private const int RegistersPerPosition = 4;

    /// <summary>Name of a position.</summary>
    /// <param name="number">Its number, from 1.</param>
    public static string Position(int number) => Text($"position-{number}");

    /// <summary>Name of a position's feedback.</summary>
    /// <param name="number">The position's number, from 1.</param>
    public static string Feedback(int number) => Text($"feedback-{number}");

    /// <summary>A bench on one serial port, 8N1.</summary>
    /// <param name="port">The port.</param>
    /// <param name="drives">How each position is wired, at least one.</param>
    /// <param name="calibratedOn">Day the meters were calibrated; due a year later.</param>
    /// <param name="baud">Speed.</param>
    public static string OnSerialPort(
        string port, IReadOnlyList<DriveKind> drives, DateOnly calibratedOn, int baud = 115200) =>
        Describe(
            $"""
            kind = "serial"
            protocol = "modbus-rtu"
            port = '{port}'
            baud = {Text($"{baud}")}
            """,
            drives,
            calibratedOn);

    /// <summary>A bench behind one TCP port.</summary>
    /// <param name="host">Name or address.</param>
    /// <param name="port">Port, 1 to 65535.</param>
    /// <param name="drives">How each position is wired, at least one.</param>
    /// <param name="calibratedOn">Day the meters were calibrated; due a year later.</param>
    public static string OnTcpPort(string host, int port, IReadOnlyList<DriveKind> drives, DateOnly calibratedOn) =>
        Describe(
            $"""
            kind = "tcp"
            protocol = "modbus-tcp"
            host = "{host}"
            tcp_port = {Text($"{port}")}
            """,
            drives,
            calibratedOn);

    private static string Describe(string link, IReadOnlyList<DriveKind> drives, DateOnly calibratedOn)
    {
        ArgumentNullException.ThrowIfNull(drives);
        ArgumentOutOfRangeException.ThrowIfZero(drives.Count, nameof(drives));
        ArgumentOutOfRangeException.ThrowIfGreaterThan(drives.Count, MostPositions, nameof(drives));
        StringBuilder text = new();
        text.Append(
            $"""
            schema = 1

            [bench]
            name = "Greenhouse bench"
            supply_current_limit_a = 3.0

            [[link]]
            name = "{Link}"
            {link}

            """);
        text.Append(Device(Board, 1));
        text.Append(Text(
            $"""

            [device.watchdog]
            holding_register = 0
            unit_ms = 10
            timeout_ms = {WatchdogMs}

            """));
        for (int number = 1; number <= drives.Count; number++)
        {
            text.Append(Device(Feedback(number), 10 + number));
        }

        for (int number = 1; number <= drives.Count; number++)
        {
            text.Append(PositionTable(number, drives[number - 1], calibratedOn));
        }

        return text.ToString();
    }

    private static string Device(string name, int address) => Text(
        $"""

        [[device]]
        name = "{name}"
        link = "{Link}"
        address = {address}
        timeout_ms = 40

        """);

    private static string PositionTable(int number, DriveKind drive, DateOnly calibratedOn)
    {
        int coil = 2 * (number - 1);
        int register = RegistersPerPosition * (number - 1);
        string down = drive == DriveKind.Reversing
            ? Text($$"""{{'\n'}}down = { device = "{{Board}}", coil = {{coil + 1}} }""")
            : "";
        return Text(
            $$"""

            [[position]]
            name = "{{Position(number)}}"
            drive = "{{(drive == DriveKind.Reversing ? "reversing" : "single")}}"
            up = { device = "{{Board}}", coil = {{coil}} }{{down}}
            feedback = "ring"
            count = { device = "{{Feedback(number)}}", input_register = 0 }
            index = { device = "{{Board}}", input_register = {{register + 2}}, bit = 0 }
            emergency_stop = { device = "{{Board}}", input_register = {{register + 2}}, bit = 1, active_low = true }

            [position.current]
            device = "{{Board}}"
            input_register = {{register}}
            signed = true
            scale_a = 0.001
            standard_uncertainty_a = 0.004
            {{Calibration(calibratedOn, "A", number)}}

            [position.voltage]
            device = "{{Board}}"
            input_register = {{register + 1}}
            scale_v = 0.001
            standard_uncertainty_v = 0.02
            {{Calibration(calibratedOn, "V", number)}}

            """);
    }

    private static string Calibration(DateOnly on, string quantity, int number) => Text(
        $"""
        calibrated_on = {on:yyyy-MM-dd}
        calibration_due_on = {on.AddYears(1):yyyy-MM-dd}
        certificate = "GB-{on.Year}-{quantity}{number:00}"
        """);

    private static string Text(FormattableString text) => text.ToString(CultureInfo.InvariantCulture);
}

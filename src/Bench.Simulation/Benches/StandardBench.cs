using System.Globalization;
using System.Text;
using Bench.Model.Profiles;

namespace Bench.Simulation.Benches;

/// <summary>
/// Writes the bench file of a common bench: one link, an I/O board at address 1, and one feedback per unit at 11, 12, …;
/// meters and inputs of a position side by side, so that one read takes them all, and a watchdog in holding register 0. Positions are <c>position-1</c> and so on.
/// A bench whose supply can be set has it on a line of its own, and it measures the voltage.
/// </summary>
public static class StandardBench
{
    /// <summary>Name of the link.</summary>
    public const string Link = "bus";

    /// <summary>Name of the I/O board.</summary>
    public const string Board = "io";

    /// <summary>Name of the line to a supply that can be set.</summary>
    public const string SupplyLine = "supply-line";

    /// <summary>Name of a supply that can be set.</summary>
    public const string Supply = "supply";

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
    /// <param name="supply">Whether its supply can be set; all positions share it.</param>
    public static string OnSerialPort(
        string port, IReadOnlyList<DriveKind> drives, DateOnly calibratedOn, int baud = 115200, bool supply = false) =>
        Describe(Serial(port, baud), [.. drives.Select(StandardWiring.Of)], calibratedOn, supply);

    /// <summary>A bench on one serial port, 8N1, wired for units of any kind.</summary>
    /// <param name="port">The port.</param>
    /// <param name="units">Families of the units, a position each, at least one.</param>
    /// <param name="calibratedOn">Day the meters were calibrated; due a year later.</param>
    /// <param name="baud">Speed.</param>
    public static string OnSerialPort(
        string port, IReadOnlyList<Profile> units, DateOnly calibratedOn, int baud = 115200) =>
        Describe(Serial(port, baud), [.. units.Select(StandardWiring.Of)], calibratedOn);

    /// <summary>A bench behind one TCP port.</summary>
    /// <param name="host">Name or address.</param>
    /// <param name="port">Port, 1 to 65535.</param>
    /// <param name="drives">How each position is wired, at least one.</param>
    /// <param name="calibratedOn">Day the meters were calibrated; due a year later.</param>
    /// <param name="supply">Whether its supply can be set; all positions share it.</param>
    public static string OnTcpPort(string host, int port, IReadOnlyList<DriveKind> drives, DateOnly calibratedOn, bool supply = false) =>
        Describe(Tcp(host, port), [.. drives.Select(StandardWiring.Of)], calibratedOn, supply);

    /// <summary>A bench behind one TCP port, wired for units of any kind.</summary>
    /// <param name="host">Name or address.</param>
    /// <param name="port">Port, 1 to 65535.</param>
    /// <param name="units">Families of the units, a position each, at least one.</param>
    /// <param name="calibratedOn">Day the meters were calibrated; due a year later.</param>
    public static string OnTcpPort(string host, int port, IReadOnlyList<Profile> units, DateOnly calibratedOn) =>
        Describe(Tcp(host, port), [.. units.Select(StandardWiring.Of)], calibratedOn);

    private static string Serial(string port, int baud) => Text(
        $"""
        kind = "serial"
        protocol = "modbus-rtu"
        port = '{port}'
        baud = {baud}
        """);

    private static string Tcp(string host, int port) => Text(
        $"""
        kind = "tcp"
        protocol = "modbus-tcp"
        host = "{host}"
        tcp_port = {port}
        """);

    private static string Describe(string link, IReadOnlyList<StandardWiring> units, DateOnly calibratedOn, bool supply = false)
    {
        ArgumentOutOfRangeException.ThrowIfZero(units.Count, nameof(units));
        ArgumentOutOfRangeException.ThrowIfGreaterThan(units.Count, MostPositions, nameof(units));
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
        for (int number = 1; number <= units.Count; number++)
        {
            text.Append(Device(Feedback(number), 10 + number));
        }

        if (supply)
        {
            text.Append(SettableSupply);
        }

        for (int number = 1; number <= units.Count; number++)
        {
            text.Append(PositionTable(number, units[number - 1], calibratedOn, supply));
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

    // 192.0.2.0/24 is the range of addresses for documentation (RFC 5737).
    private static string SettableSupply => Text(
        $$"""

        [[link]]
        name = "{{SupplyLine}}"
        kind = "tcp"
        protocol = "scpi"
        host = "192.0.2.20"

        [[device]]
        name = "{{Supply}}"
        link = "{{SupplyLine}}"
        timeout_ms = 100
        supply = { voltage_v = 24.0, lowest_v = 18.0, highest_v = 30.0 }

        """);

    private static string Voltmeter(int register, bool supply) => supply
        ? Text(
            $"""
            device = "{Supply}"
            query = "MEAS:VOLT?"
            """)
        : Text(
            $"""
            device = "{Board}"
            input_register = {register}
            scale_v = 0.001
            """);

    private static string PositionTable(int number, StandardWiring unit, DateOnly calibratedOn, bool supply)
    {
        int register = RegistersPerPosition * (number - 1);
        string feedback = Feedback(number);

        // Next to the last meter of the board, for what lies between is read too.
        int inputs = supply ? register + 1 : register + 2;
        return Text(
            $$"""

            [[position]]
            name = "{{Position(number)}}"
            {{unit.Outputs(Board, 2 * (number - 1), feedback)}}
            {{unit.Count(feedback)}}
            index = { device = "{{Board}}", input_register = {{inputs}}, bit = 0 }
            emergency_stop = { device = "{{Board}}", input_register = {{inputs}}, bit = 1, active_low = true }
            {{unit.Switches(feedback)}}
            [position.current]
            device = "{{Board}}"
            input_register = {{register}}
            signed = true
            scale_a = 0.001
            standard_uncertainty_a = 0.004
            {{Calibration(calibratedOn, "A", number)}}

            [position.voltage]
            {{Voltmeter(register + 1, supply)}}
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

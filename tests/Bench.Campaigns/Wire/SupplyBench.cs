using System.Globalization;
using Bench.Model.Profiles;

namespace Bench.Campaigns.Wire;

/// <summary>
/// Writes the bench file of a bench whose supply can be set: relays, index and emergency stop on a board of one link, the supply
/// on the other, one serial and one TCP. Its voltage is the supply's own measurement; the current is that too, or the board's.
/// </summary>
internal static class SupplyBench
{
    /// <summary>What it is set to, and what it may be set to, volts: wider than any profile below and narrower above.</summary>
    public const double NominalV = 24.0;

    /// <inheritdoc cref="NominalV"/>
    public const double LowestV = 18.0;

    /// <inheritdoc cref="NominalV"/>
    public const double HighestV = 28.7;

    /// <summary>Writes it.</summary>
    /// <param name="drive">How the unit is driven.</param>
    /// <param name="overTcp">Whether the supply is on TCP and the board on a serial port; else the other way round.</param>
    /// <param name="metersAll">Whether the supply measures the current, too; else the board does.</param>
    /// <param name="calibratedOn">Day the meters were calibrated.</param>
    public static string Text(DriveKind drive, bool overTcp, bool metersAll, DateOnly calibratedOn)
    {
        string current = metersAll ? "device = \"supply\"\nquery = \"MEAS:CURR?\"" : "device = \"io\"\ninput_register = 0\nsigned = true\nscale_a = 0.001";
        string calibrated = string.Create(
            CultureInfo.InvariantCulture, $"calibrated_on = {calibratedOn:yyyy-MM-dd}\ncalibration_due_on = {calibratedOn.AddYears(1):yyyy-MM-dd}");
        return string.Create(CultureInfo.InvariantCulture, $$"""
            schema = 1

            [bench]
            name = "Greenhouse bench, programmable supply"
            supply_current_limit_a = 3.0

            [[link]]
            name = "bus"
            {{(overTcp ? Serial("modbus-rtu", "/dev/ttyUSB0") : Tcp("modbus-tcp"))}}

            [[link]]
            name = "supply-line"
            {{(overTcp ? Tcp("scpi") : Serial("scpi", "/dev/ttyUSB1"))}}

            [[device]]
            name = "io"
            link = "bus"
            address = 1
            timeout_ms = 40

            [device.watchdog]
            holding_register = 0
            unit_ms = 10
            timeout_ms = 1000

            [[device]]
            name = "feedback"
            link = "bus"
            address = 11
            timeout_ms = 40

            [[device]]
            name = "supply"
            link = "supply-line"
            timeout_ms = 40
            supply = { voltage_v = {{NominalV}}, lowest_v = {{LowestV}}, highest_v = {{HighestV}} }

            [[position]]
            name = "only"
            drive = "{{(drive == DriveKind.Reversing ? "reversing" : "single")}}"
            up = { device = "io", coil = 0 }
            {{(drive == DriveKind.Reversing ? "down = { device = \"io\", coil = 1 }" : "")}}
            feedback = "ring"
            count = { device = "feedback", input_register = 0 }
            index = { device = "io", input_register = 2, bit = 0 }
            emergency_stop = { device = "io", input_register = 2, bit = 1, active_low = true }

            [position.current]
            {{current}}
            standard_uncertainty_a = 0.004
            {{calibrated}}
            certificate = "GB-0501"

            [position.voltage]
            device = "supply"
            query = "MEAS:VOLT?"
            standard_uncertainty_v = 0.02
            {{calibrated}}
            certificate = "GB-0502"
            """);
    }

    private static string Serial(string protocol, string port) => $"kind = \"serial\"\nprotocol = \"{protocol}\"\nport = \"{port}\"\nbaud = 115200";

    private static string Tcp(string protocol) => $"kind = \"tcp\"\nprotocol = \"{protocol}\"\nhost = \"localhost\"";
}

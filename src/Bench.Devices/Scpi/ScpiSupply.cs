using System.Globalization;
using Bench.Devices.Buses;
using Bench.Model.Instruments;

namespace Bench.Devices.Scpi;

/// <summary>A programmable supply: set at start, checked by reading back, set to another voltage by permit, switched off at the end.</summary>
/// <remarks>
/// Its output feeds the bench's relays; a unit turns only when a relay closes as well. Its current limit is the
/// hardware's, set here instead of by hand; it does not replace the fuse.
/// </remarks>
public sealed class ScpiSupply
{
    private const int MostOffAttempts = 2;

    private readonly ScpiDevice _device;
    private readonly double _voltageV;
    private readonly double _currentLimitA;
    private readonly string _volt;
    private readonly string _curr;
    private readonly string _output;

    /// <summary>Makes a supply.</summary>
    /// <param name="device">The instrument.</param>
    /// <param name="voltageV">Voltage to set at start, volts.</param>
    /// <param name="currentLimitA">Current limit to set, amperes.</param>
    /// <param name="range">Voltages it may be set to later; null when it stays as it was set at start.</param>
    /// <param name="channel">Its output that feeds the bench, from 1, told by a number after the keyword; null where it has one.</param>
    public ScpiSupply(ScpiDevice device, double voltageV, double currentLimitA, SupplyRange? range = null, int? channel = null)
    {
        _device = device;
        _voltageV = voltageV;
        _currentLimitA = currentLimitA;
        Range = range;
        (_volt, _curr, _output) = (Header($"SOUR{channel}:VOLT"), Header($"SOUR{channel}:CURR"), Header($"OUTP{channel}"));

        static string Header(FormattableString text) => text.ToString(CultureInfo.InvariantCulture);
    }

    /// <summary>Voltages it may be set to after the start; null when none.</summary>
    public SupplyRange? Range { get; }

    /// <summary>The device's name in the bench file.</summary>
    public string Name => _device.Line.Name;

    /// <summary>
    /// Resets the supply, which switches its output off (SCPI-1999 volume 2, OUTPut:STATe; from memory), sets voltage and
    /// current limit, reads both back, and only then switches the output on and reads that back. Nothing is repeated.
    /// </summary>
    /// <exception cref="DeviceFaultException">It refused, did not answer, or is not what it was set to; the output is off or was never on.</exception>
    public async Task StartAsync(CancellationToken cancel)
    {
        await _device.CommandAsync(BusClass.Rest, "*CLS", cancel);
        await _device.CommandAsync(BusClass.Rest, "*RST", cancel);
        await SetAsync(_volt, _voltageV, "V", cancel);
        await SetAsync(_curr, _currentLimitA, "A", cancel);
        try
        {
            await _device.CommandAsync(BusClass.Safety, $"{_output} ON", cancel);
            if (!await IsOnAsync(cancel))
            {
                throw new DeviceFaultException(Fault("its output stays off; look for a tripped protection or a local lock on its panel"));
            }
        }
        catch (DeviceFaultException)
        {
            await TrySwitchOffAsync();
            throw;
        }
    }

    /// <summary>Sets another voltage once, and reads it back. Nothing is repeated (S8).</summary>
    /// <exception cref="DeviceFaultException">It refused, did not answer, or is not what it was set to: it may be set to either voltage.</exception>
    /// <exception cref="PermitRefusedException">The permit expired or was used, or the voltage is outside <see cref="Range"/>; nothing was sent.</exception>
    public async ValueTask SetVoltageAsync(SupplyPermit permit, CancellationToken cancel)
    {
        ArgumentNullException.ThrowIfNull(permit);
        if (Range is not { } range || !range.Allows(permit.VoltageV))
        {
            throw new PermitRefusedException(string.Create(
                CultureInfo.InvariantCulture, $"supply '{Name}' may not be set to {permit.VoltageV:0.###} V: the bench file does not allow it"));
        }

        await _device.CommandAsync(BusClass.Safety, $"{_volt} {ScpiNumber.Text(permit.VoltageV)}", cancel, permit.Take);
        await ReadBackAsync(_volt, permit.VoltageV, "V", cancel);
    }

    /// <summary>Sets the voltage of the start again, tries twice at most, and reads it back.</summary>
    /// <exception cref="DeviceFaultException">It can't be confirmed.</exception>
    public async ValueTask RestoreVoltageAsync(CancellationToken cancel)
    {
        for (int attempt = 1; ; attempt++)
        {
            try
            {
                await SetAsync(_volt, _voltageV, "V", cancel);
                return;
            }
            catch (DeviceFaultException e) when (attempt < MostOffAttempts && e.Fault.Kind != DeviceFaultKind.LinkLost)
            {
                // Back to what it was may be repeated.
            }
        }
    }

    /// <summary>Switches the output off, tries twice at most, and reads it back.</summary>
    /// <exception cref="DeviceFaultException">It can't be confirmed off.</exception>
    public async Task SwitchOffAsync(CancellationToken cancel)
    {
        for (int attempt = 1; ; attempt++)
        {
            try
            {
                await _device.CommandAsync(BusClass.Safety, $"{_output} OFF", cancel);
                if (await IsOnAsync(cancel))
                {
                    throw new DeviceFaultException(Fault("its output stays on; switch it off at its panel"));
                }

                return;
            }
            catch (DeviceFaultException e) when (attempt < MostOffAttempts && e.Fault.Kind != DeviceFaultKind.LinkLost)
            {
                // Off may be repeated.
            }
        }
    }

    /// <summary>Whether the output is on.</summary>
    /// <exception cref="DeviceFaultException">It does not say.</exception>
    public async ValueTask<bool> IsOnAsync(CancellationToken cancel) =>
        await _device.ReadNumberAsync(BusClass.Safety, $"{_output}?", cancel) != 0;

    private async Task SetAsync(string header, double value, string unit, CancellationToken cancel)
    {
        await _device.CommandAsync(BusClass.Rest, $"{header} {ScpiNumber.Text(value)}", cancel);
        await ReadBackAsync(header, value, unit, cancel);
    }

    private async ValueTask ReadBackAsync(string header, double value, string unit, CancellationToken cancel)
    {
        double set = await _device.ReadNumberAsync(BusClass.Rest, $"{header}?", cancel);
        if (!(Math.Abs(set - value) <= SupplyRange.SettingTolerance * value))
        {
            throw new DeviceFaultException(Fault(string.Create(
                CultureInfo.InvariantCulture,
                $"{header} was set to {value:0.###} {unit} and reads back {set:0.###} {unit}; check its range and the limits set at its panel")));
        }
    }

    private async Task TrySwitchOffAsync()
    {
        try
        {
            await SwitchOffAsync(CancellationToken.None);
        }
        catch (DeviceFaultException)
        {
            // The fault that led here is the one to tell.
        }
    }

    private DeviceFault Fault(string detail) =>
        new(DeviceFaultKind.Refused, Name, _device.Line.Counts.Link, detail);
}

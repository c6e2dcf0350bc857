using System.Globalization;
using Bench.Devices.Buses;
using Bench.Model.Instruments;

namespace Bench.Devices.Scpi;

/// <summary>A programmable supply: set at start, checked by reading back, switched off at the end.</summary>
/// <remarks>
/// Its output feeds the bench's relays; a unit turns only when a relay closes as well. Its current limit is the
/// hardware's, set here instead of by hand; it does not replace the fuse.
/// </remarks>
public sealed class ScpiSupply
{
    /// <summary>How far a set value may be from what was asked: steps of a converter of 10 bits or better. Common practice, no source.</summary>
    public const double SettingTolerance = 0.005;

    private const int MostOffAttempts = 2;

    private readonly ScpiDevice _device;
    private readonly double _voltageV;
    private readonly double _currentLimitA;

    /// <summary>Makes a supply.</summary>
    /// <param name="device">The instrument.</param>
    /// <param name="voltageV">Voltage to set, volts.</param>
    /// <param name="currentLimitA">Current limit to set, amperes.</param>
    public ScpiSupply(ScpiDevice device, double voltageV, double currentLimitA)
    {
        _device = device;
        _voltageV = voltageV;
        _currentLimitA = currentLimitA;
    }

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
        await SetAsync("SOUR:VOLT", _voltageV, "V", cancel);
        await SetAsync("SOUR:CURR", _currentLimitA, "A", cancel);
        try
        {
            await _device.CommandAsync(BusClass.Safety, "OUTP ON", cancel);
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

    /// <summary>Switches the output off, tries twice at most, and reads it back.</summary>
    /// <exception cref="DeviceFaultException">It can't be confirmed off.</exception>
    public async Task SwitchOffAsync(CancellationToken cancel)
    {
        for (int attempt = 1; ; attempt++)
        {
            try
            {
                await _device.CommandAsync(BusClass.Safety, "OUTP OFF", cancel);
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
        await _device.ReadNumberAsync(BusClass.Safety, "OUTP?", cancel) != 0;

    private async Task SetAsync(string header, double value, string unit, CancellationToken cancel)
    {
        await _device.CommandAsync(BusClass.Rest, $"{header} {ScpiNumber.Text(value)}", cancel);
        double set = await _device.ReadNumberAsync(BusClass.Rest, $"{header}?", cancel);
        if (!(Math.Abs(set - value) <= SettingTolerance * value))
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

using System.Globalization;
using Bench.Devices.Scpi;
using Bench.Devices.Scpi.Server;
using Bench.Model.BenchFiles;

namespace Bench.Simulation.Benches;

/// <summary>
/// A programmable supply or meter that speaks SCPI. It measures what it feeds: the current of every position whose current
/// is asked of it, the voltage of the first whose voltage is. A supply begins switched off, as after *RST.
/// </summary>
internal sealed class SimulatedInstrument
{
    /// <summary>Most that can be set, volts and amperes: a bench supply of the usual size.</summary>
    private const double MostV = 60.0;
    private const double MostA = 10.0;

    /// <summary>How much more than set a supply gives whose regulation fails.</summary>
    private const double TooHighShare = 1.4;

    private readonly DeviceDescription _device;
    private readonly ScpiServer _server;
    private double _setV;
    private double _limitA;

    /// <summary>Makes an instrument.</summary>
    /// <param name="device">Its description.</param>
    /// <param name="current">Current it measures, amperes.</param>
    /// <param name="voltage">Voltage it measures, volts.</param>
    internal SimulatedInstrument(DeviceDescription device, Func<double> current, Func<double> voltage)
    {
        _device = device;
        _server = new ScpiServer("Greenhouse Works,SIMULATED,0,1", Reset);
        _server.On("MEASure[:SCALar]:CURRent[:DC]?", 0, _ => Measured(current));
        _server.On("MEASure[:SCALar]:VOLTage[:DC]?", 0, _ => Measured(voltage));
        if (device.SupplyVoltageV is not null)
        {
            _server.On("OUTPut#[:STATe]", 1, p => Switch(p[0]));
            _server.On("OUTPut#[:STATe]?", 0, _ => On ? "1" : "0");
            _server.On("[:SOURce#]:VOLTage[:LEVel][:IMMediate][:AMPLitude]", 1, p => Set(p[0], MostV, v => _setV = v));
            _server.On("[:SOURce#]:VOLTage[:LEVel][:IMMediate][:AMPLitude]?", 0, _ => ScpiNumber.Text(_setV));
            _server.On("[:SOURce#]:CURRent[:LEVel][:IMMediate][:AMPLitude]", 1, p => Set(p[0], MostA, a => _limitA = a));
            _server.On("[:SOURce#]:CURRent[:LEVel][:IMMediate][:AMPLitude]?", 0, _ => ScpiNumber.Text(_limitA));
        }
    }

    /// <summary>Called when voltage or output has changed.</summary>
    internal Action Changed { get; set; } = () => { };

    /// <summary>How it fails.</summary>
    internal SupplyFailure Failure
    {
        get;
        set
        {
            field = value;
            Changed();
        }
    }

    /// <summary>Its settings.</summary>
    internal SupplySetting Setting => new(_device.Name, _setV, On);

    /// <summary>Whether what it feeds has supply; a mere meter leaves that alone.</summary>
    internal bool On { get; private set; }

    /// <summary>Whether it is a supply rather than a mere meter.</summary>
    internal bool IsSupply => _device.SupplyVoltageV is not null;

    /// <summary>Voltage it gives as a share of the one the bench file names.</summary>
    internal double SetShare => (_setV * (Failure == SupplyFailure.TooHigh ? TooHighShare : 1.0)) / _device.SupplyVoltageV ?? 1.0;

    internal string? Answer(string message) => _server.Answer(message);

    private static string Measured(Func<double> value) => ScpiNumber.Text(value());

    private void Reset()
    {
        (_setV, _limitA, On) = (0.0, 0.0, false);
        Changed();
    }

    private string? Switch(string parameter)
    {
        if (parameter.ToUpperInvariant() is not ("ON" or "1" or "OFF" or "0"))
        {
            return _server.Refuse(ScpiError.DataType);
        }

        if (Failure == SupplyFailure.Refuses)
        {
            return _server.Refuse(ScpiError.SettingsConflict);
        }

        On = parameter.ToUpperInvariant() is "ON" or "1";
        Changed();
        return null;
    }

    private string? Set(string parameter, double most, Action<double> take)
    {
        if (!double.TryParse(parameter, NumberStyles.Float, CultureInfo.InvariantCulture, out double value))
        {
            return _server.Refuse(ScpiError.DataType);
        }

        if (!(value >= 0.0 && value <= most))
        {
            return _server.Refuse(ScpiError.OutOfRange);
        }

        if (Failure == SupplyFailure.Refuses)
        {
            return _server.Refuse(ScpiError.SettingsConflict);
        }

        if (Failure != SupplyFailure.KeepsSetting)
        {
            take(value);
            Changed();
        }

        return null;
    }
}

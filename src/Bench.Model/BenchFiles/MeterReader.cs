using Bench.Model.Configuration;

namespace Bench.Model.BenchFiles;

/// <summary>Reads a meter: its register, scale, uncertainty and calibration. Its unit is the ending of its keys.</summary>
internal static class MeterReader
{
    /// <summary>Reads a meter.</summary>
    /// <param name="section">Its table; null when it is missing, which is noted already.</param>
    /// <param name="devices">Names of devices.</param>
    /// <param name="unit">Ending of the keys, <c>a</c> or <c>v</c>.</param>
    public static MeterDescription? Read(Section? section, KnownDevices devices, string unit)
    {
        if (section is null)
        {
            return null;
        }

        // A number that comes as text has its sign and, as a rule, its unit already.
        Channel? channel = ChannelReader.Measured(section, devices);
        bool isText = channel?.Text is not null && devices.StreamOf(channel.Device) is null;
        double? scale = section.Number($"scale_{unit}", NumberRange.Any, required: !isText);
        if (scale == 0)
        {
            section.Refuse($"scale_{unit}", null, "a number other than 0 is allowed");
        }

        double? offset = section.Number($"offset_{unit}", NumberRange.Any, required: false);
        double? uncertainty = section.Number($"standard_uncertainty_{unit}", NumberRange.Positive(1000));
        DateOnly? calibrated = section.Date("calibrated_on");
        DateOnly? due = section.Date("calibration_due_on");
        if (due <= calibrated)
        {
            section.Refuse("calibration_due_on", null, "a day after calibrated_on is allowed");
        }

        string? certificate = section.Text("certificate");
        section.Close();
        return channel is null ? null : new MeterDescription
        {
            Channel = channel,
            Scale = scale ?? 1,
            Offset = offset ?? 0,
            StandardUncertainty = uncertainty ?? 0,
            CalibratedOn = calibrated ?? default,
            CalibrationDueOn = due ?? default,
            Certificate = certificate ?? "",
        };
    }
}

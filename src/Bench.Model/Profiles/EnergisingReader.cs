using System.Globalization;
using Bench.Model.Configuration;

namespace Bench.Model.Profiles;

/// <summary>Reads <c>[electrical]</c> and <c>[safety]</c>: what a unit takes, and what it may be given.</summary>
internal static class EnergisingReader
{
    // Extra-low voltage, IEC 61140: at most 120 V d.c. (from memory). Currents and times: generous, against misplaced points.
    private static readonly NumberRange Volts = NumberRange.Positive(120);
    private static readonly NumberRange Amperes = NumberRange.Positive(50);
    private static readonly NumberRange Milliseconds = NumberRange.Positive(600_000);

    private static readonly string[] HousingKeys = ["housing_thermal_k_per_w", "housing_time_constant_s"];

    private static readonly string[] WindingKeys =
        ["winding_thermal_k_per_w", "winding_time_constant_s", "winding_most_celsius", "ambient_most_celsius", .. HousingKeys];

    public static ElectricalData? ReadElectrical(Section? section)
    {
        if (section is null)
        {
            return null;
        }

        double? nominal = section.Number("supply_nominal_v", Volts);
        double? min = section.Number("supply_min_v", Volts);
        double? max = section.Number("supply_max_v", Volts);
        Below(section, "supply_min_v", min, "supply_nominal_v", nominal);
        Below(section, "supply_nominal_v", nominal, "supply_max_v", max);
        double? winding = section.Number("winding_ohm", NumberRange.Positive(100_000));
        double? torqueConstant = section.Number("torque_constant_nm_per_a", NumberRange.Positive(100));
        double? noLoad = section.Number("no_load_current_a", Amperes);
        double? stall = section.Number("stall_current_a", Amperes);
        double? running = section.Number("running_current_a", Amperes);
        Below(section, "no_load_current_a", noLoad, "running_current_a", running);
        Below(section, "running_current_a", running, "stall_current_a", stall);
        double? gear = section.Number("gear_ratio", NumberRange.Positive(100_000));
        double? ripple = section.Number("ripple_cycles_per_motor_revolution", new NumberRange(1, 1000), required: false);
        double? speed = section.Number("running_speed_counts_per_s", NumberRange.Positive(1_000_000));
        section.Close();
        return new ElectricalData
        {
            SupplyNominalV = nominal ?? 0,
            SupplyMinV = min ?? 0,
            SupplyMaxV = max ?? 0,
            WindingOhm = winding ?? 0,
            TorqueConstantNmPerA = torqueConstant ?? 0,
            NoLoadCurrentA = noLoad ?? 0,
            StallCurrentA = stall ?? 0,
            RunningCurrentA = running ?? 0,
            GearRatio = gear ?? 0,
            RippleCyclesPerMotorRevolution = ripple,
            RunningSpeedCountsPerS = speed ?? 0,
        };
    }

    /// <summary>Reads the limits of energising.</summary>
    /// <param name="section">Its table; null when missing.</param>
    /// <param name="electrical">Nominal data; a value that could not be read is 0 there and checks nothing.</param>
    /// <param name="counts">Size of the ring; null when it could not be read.</param>
    public static SafetyLimits? ReadSafety(Section? section, ElectricalData? electrical, int? counts)
    {
        if (section is null)
        {
            return null;
        }

        double? overCurrent = section.Number("over_current_a", Amperes);
        if (overCurrent <= electrical?.StallCurrentA)
        {
            section.Refuse("over_current_a", null, Text($"above electrical.stall_current_a ({electrical.StallCurrentA}) is allowed, else every start trips"));
        }

        double? deadTime = section.Number("dead_time_ms", new NumberRange(1, 10_000));
        double? noMotion = section.Number("no_motion_ms", Milliseconds);
        double? feedbackLost = section.Number("feedback_lost_ms", Milliseconds);
        double? mostOn = section.Number("most_on_ms", Milliseconds);
        double revolutionMs = electrical is { RunningSpeedCountsPerS: > 0 } e ? 1000.0 * (counts ?? 0) / e.RunningSpeedCountsPerS : 0;
        if (mostOn <= revolutionMs)
        {
            section.Refuse("most_on_ms", null, Text($"above one revolution ({Math.Ceiling(revolutionMs)} ms at electrical.running_speed_counts_per_s) is allowed, else long moves abort"));
        }

        Below(section, "no_motion_ms", noMotion, "most_on_ms", mostOn);
        Below(section, "feedback_lost_ms", feedbackLost, "most_on_ms", mostOn);
        double? duty = section.Number("most_duty", new NumberRange(0.01, 1));
        double? window = section.Number("duty_window_s", NumberRange.Positive(3600));
        WindingLimits? winding = ReadWinding(section, electrical);
        section.Close();
        return new SafetyLimits
        {
            OverCurrentA = overCurrent ?? 0,
            DeadTimeMs = deadTime ?? 0,
            NoMotionMs = noMotion ?? 0,
            FeedbackLostMs = feedbackLost ?? 0,
            MostOnMs = mostOn ?? 0,
            MostDuty = duty ?? 0,
            DutyWindowS = window ?? 0,
            Winding = winding,
        };
    }

    // The first four or none: half a model would look like protection. The housing's two go on top of them.
    private static WindingLimits? ReadWinding(Section section, ElectricalData? electrical)
    {
        if (!WindingKeys.Any(section.Has))
        {
            return null;
        }

        double? thermal = section.Number("winding_thermal_k_per_w", NumberRange.Positive(1000));
        double? constant = section.Number("winding_time_constant_s", NumberRange.Positive(3600));
        double? most = section.Number("winding_most_celsius", new NumberRange(40, 250));
        double? ambient = section.Number("ambient_most_celsius", new NumberRange(0, 80));
        Below(section, "ambient_most_celsius", ambient, "winding_most_celsius", most);
        HousingHeat? housing = ReadHousing(section, constant);
        double runningK = ((thermal ?? 0) + (housing?.ThermalKPerW ?? 0)) * Square(electrical?.RunningCurrentA ?? 0) * (electrical?.WindingOhm ?? 0);
        if (ambient + runningK >= most)
        {
            section.Refuse("winding_most_celsius", null, Text($"above {Math.Ceiling(ambient!.Value + runningK)} is allowed: what electrical.running_current_a heats the winding to for good"));
        }

        return new WindingLimits
        {
            ThermalKPerW = thermal ?? 0,
            TimeConstantS = constant ?? 0,
            Housing = housing,
            MostCelsius = most ?? 0,
            AmbientCelsius = ambient ?? 0,
        };
    }

    private static HousingHeat? ReadHousing(Section section, double? windingConstant)
    {
        if (!HousingKeys.Any(section.Has))
        {
            return null;
        }

        double? thermal = section.Number("housing_thermal_k_per_w", NumberRange.Positive(1000));
        double? constant = section.Number("housing_time_constant_s", NumberRange.Positive(36_000));
        if (constant <= windingConstant)
        {
            section.Refuse("housing_time_constant_s", null, Text($"above winding_time_constant_s ({windingConstant}) is allowed"));
        }

        return new HousingHeat(thermal ?? 0, constant ?? 0);
    }

    private static double Square(double value) => value * value;

    private static void Below(Section section, string key, double? value, string other, double? limit)
    {
        if (value >= limit)
        {
            section.Refuse(key, null, Text($"below {other} ({limit}) is allowed"));
        }
    }

    private static string Text(FormattableString text) => text.ToString(CultureInfo.InvariantCulture);
}

using Bench.Model.Profiles;
using Bench.Model.Runs;

namespace Bench.Running;

/// <summary>How a unit must be connected before a run, in lines to be read aloud and ticked off.</summary>
internal sealed record UnitWiring(IReadOnlyList<string> Lines)
{
    /// <summary>The lines for a run.</summary>
    public static UnitWiring For(RunStart start)
    {
        ElectricalData data = start.Profile.Electrical;
        List<string> lines =
        [
            $"Unit {start.Return.Serial} ({start.Profile.Title}) is at position '{start.Bench.Position}' of bench '{start.Bench.Name}'.",
            FormattableString.Invariant($"The supply is set to {data.SupplyNominalV:0.0} V DC, its current limit to {start.Bench.SupplyCurrentLimitA:0.0} A, polarity checked."),
            "The feedback connector is fully seated and its lock closed.",
            "The valve is free of pressure and drained; the shaft can turn freely and nothing can be caught.",
        ];
        if (start.Bench.HasIndex)
        {
            lines.Add("The index switch is fitted to the valve shaft.");
        }

        lines.Add(start.Bench.HasEmergencyStop
            ? "The emergency stop is released, within reach, and was tried today."
            : "This bench file names no emergency-stop input: the emergency stop in the supply line is within reach and was tried today.");
        return new UnitWiring(lines);
    }
}

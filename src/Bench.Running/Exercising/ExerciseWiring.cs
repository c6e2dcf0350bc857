namespace Bench.Running.Exercising;

/// <summary>What must be so before outputs are exercised, in lines to be read aloud and ticked off.</summary>
internal static class ExerciseWiring
{
    /// <summary>The lines.</summary>
    public static IReadOnlyList<string> Lines(ExerciseRequest request) =>
    [
        .. request.UnitSerial is { } serial
            ?
            [
                $"Unit {serial} ({request.Profile.Title}) is at position '{request.Description.Name}' of bench '{request.Bench.Name}'. It WILL TURN a little, each way its drive allows.",
                "The valve is free of pressure and drained; the shaft can turn freely and nothing can be caught.",
            ]
            : new[]
            {
                $"NO unit is connected at position '{request.Description.Name}' of bench '{request.Bench.Name}'. Its connector is covered: the supply stands on it while an output is on.",
            },
        FormattableString.Invariant(
            $"The supply is set to {request.Profile.Electrical.SupplyNominalV:0.0} V DC, its current limit to {request.Bench.SupplyCurrentLimitA:0.0} A, polarity checked."),
        request.Description.EmergencyStop is not null
            ? "The emergency stop is released, within reach, and was tried today."
            : "This bench file names no emergency-stop input: the emergency stop in the supply line is within reach and was tried today.",
    ];
}

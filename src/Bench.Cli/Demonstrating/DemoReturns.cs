using Bench.Model.Judging;
using Bench.Model.Returns;

namespace Bench.Cli.Demonstrating;

/// <summary>
/// The demo's pallet: returns from an invented world of greenhouse irrigation, every condition that can befall a unit with a ring.
/// What is right follows from the profiles' own costs, and from what a bench can know: a bad bench only ever holds.
/// </summary>
internal static class DemoReturns
{
    /// <summary>Fluid came past the seal into the drive side: such a unit is not energised, so no simulator is asked.</summary>
    public const string FluidPastSeal = "fluid-past-seal";

    private const string Diverter = "nutrient-diverter-4";
    private const string Selector = "zone-selector-3";

    /// <summary>All of them.</summary>
    public static IReadOnlyList<DemoUnit> All { get; } =
    [
        Unit("ND4-10417", Diverter, "healthy", Symptom.Intermittent, "Position lost twice last week, swapped on suspicion.", Disposition.Reusable),
        Unit("ND4-10388", Diverter, "dead-sensors", Symptom.Constant, "Controller never confirms port C.", Disposition.Repairable),
        Unit("ND4-09951", Diverter, "contaminated-sensors", Symptom.Intermittent, "Fault comes after feeding, gone next morning.", Disposition.Scrap),
        Unit("ND4-10102", Diverter, "coupling-slip", Symptom.Intermittent, "Right position shown, wrong bench watered.", Disposition.Repairable),
        Unit("ND4-10240", Diverter, "drifting-zero", Symptom.Intermittent, "Needs homing every few days.", Disposition.Repairable),
        Unit("ND4-09876", Diverter, "backlash", Symptom.Intermittent, "Port B leaks when reached from above.", Disposition.Repairable),
        Unit("ND4-10051", Diverter, "seized-valve", Symptom.Constant, "Hums, no feedback change.", Disposition.Scrap),
        Unit("ND4-10052", Diverter, "seized-motor", Symptom.Constant, "Supply good, no movement.", Disposition.Scrap),
        Unit("ND4-10333", Diverter, "open-winding", Symptom.Constant, "Supply good, no sound.", Disposition.Repairable),
        Unit("ND4-09714", Diverter, "worn-brushes", Symptom.Intermittent, "Slow, sometimes stops short.", Disposition.Repairable),
        Unit("ND4-10290", Diverter, "contact-resistance", Symptom.Intermittent, "Slow when all zones run.", Disposition.Repairable),
        Unit("ND4-10291", Diverter, "intermittent-connector", Symptom.Intermittent, "Fault clears when the lid is closed.", Disposition.Repairable),
        Unit("ND4-10188", Diverter, "dead-feedback", Symptom.Constant, "Moves, controller sees nothing.", Disposition.Repairable),
        Unit("ND4-10420", Diverter, "noisy-link", Symptom.Intermittent, "Swapped on suspicion."),
        Unit("ND4-09990", Diverter, "tight-spot", Symptom.Intermittent, "Groans between B and C.", Disposition.Repairable),
        Unit("ND4-09655", Diverter, "stripped-gear", Symptom.Constant, "Motor heard, no feedback change.", Disposition.Scrap),
        Unit("ND4-10421", Diverter, "low-bench-supply", Symptom.Intermittent, "Swapped on suspicion."),
        Unit("ND4-10290", Diverter, "worn-brushes", Symptom.Intermittent, "Back again: slow, sometimes stops short.", Disposition.Repairable) with { ReturnNumber = "R-ND4-10290-2" },
        Unit("ND4-10377", Diverter, FluidPastSeal, Symptom.Intermittent, "Runs, loses its position when the bay is fed.", Disposition.Scrap) with
        {
            Found = new Dictionary<string, string> { ["drive-side"] = "wet" },
            HasPhoto = true,
        },
        Unit("ZS3-20117", Selector, "healthy", Symptom.Intermittent, "Zone 2 reported lost, once.", Disposition.Reusable),
        Unit("ZS3-20090", Selector, "dead-sensors", Symptom.Constant, "Zone 3 never confirmed.", Disposition.Repairable),
        Unit("ZS3-19964", Selector, "contaminated-sensors", Symptom.Intermittent, "Only on humid days.", Disposition.Scrap),
        Unit("ZS3-20071", Selector, "coupling-slip", Symptom.Intermittent, "Waters the neighbour zone.", Disposition.Repairable),
        Unit("ZS3-20033", Selector, "seized-motor", Symptom.Constant, "No movement.", Disposition.Scrap),
        Unit("ZS3-20108", Selector, "dead-feedback", Symptom.Constant, "Turns, nothing reported.", Disposition.Repairable),
    ];

    private static DemoUnit Unit(
        string serial, string family, string condition, Symptom symptom, string note, params Disposition?[] right) =>
        new(serial, family, condition, symptom, note, right.Length == 0 ? [null] : right);
}

using Bench.Model.Judging;
using Bench.Model.Profiles;

namespace Bench.Campaigns.Confusion;

/// <summary>
/// What is right for a unit of a condition. Dispositions follow from the families' own remedies and costs, causes are
/// the profile's fault modes.
/// </summary>
/// <param name="Disposition">The right one; null where the bench is what is bad, so that no verdict on the unit is right.</param>
/// <param name="Causes">Ids of fault modes that name the condition.</param>
/// <param name="Claim">The right claim outcome; null where none is.</param>
public sealed record Truth(Disposition? Disposition, IReadOnlyList<string> Causes, ClaimOutcome? Claim)
{
    /// <summary>The truth on a condition in a family.</summary>
    /// <param name="family">Id of the family.</param>
    /// <param name="condition">Id of the condition.</param>
    public static Truth Of(string family, string condition)
    {
        // A selector is worth less: a new motor costs more than half of it.
        Disposition motor = family == "zone-selector-3" ? Model.Judging.Disposition.Scrap : Model.Judging.Disposition.Repairable;
        return condition switch
        {
            "healthy" => new(Model.Judging.Disposition.Reusable, ["none"], ClaimOutcome.NotReproduced),
            "noisy-link" or "low-bench-supply" => new(null, [], null),
            "dead-feedback" => new(Model.Judging.Disposition.Repairable, ["dead-feedback", "frozen-feedback"], ClaimOutcome.Confirmed),
            "contaminated-sensors" => Fault(condition, Model.Judging.Disposition.Scrap, explains: true),
            "seized-valve" or "seized-motor" or "stripped-gear" => Fault(condition, Model.Judging.Disposition.Scrap, explains: false),
            "open-winding" or "worn-brushes" or "hanging-brush" or "warm-open-winding" => Fault(condition, motor, explains: false),
            "dead-sensors" or "intermittent-connector" or "coupling-slip" or "drifting-zero" or "backlash" or "strained-cable" or "weak-regulator" =>
                Fault(condition, Model.Judging.Disposition.Repairable, explains: true),
            _ => Fault(condition, Model.Judging.Disposition.Repairable, explains: false),
        };
    }

    /// <summary>
    /// Conditions to be drawn for a family. A drive that turns one way keeps play taken up: nobody sees it, neither the
    /// bench nor the controller in the field, so play is no fault there.
    /// </summary>
    public static IReadOnlyList<string> Faults(Profile profile) =>
    [
        "dead-sensors", "contaminated-sensors", "coupling-slip", "drifting-zero", .. profile.CanReverse ? ["backlash"] : Array.Empty<string>(),
        "seized-valve", "seized-motor", "open-winding", "worn-brushes", "contact-resistance", "intermittent-connector", "dead-feedback",
        "noisy-link", "tight-spot", "stripped-gear", "low-bench-supply",
        "hanging-brush", "sticking-seal", "weak-regulator", "strained-cable", "warm-open-winding",
    ];

    private static Truth Fault(string condition, Disposition disposition, bool explains) =>
        new(disposition, [condition], explains ? ClaimOutcome.Confirmed : ClaimOutcome.OtherFault);
}

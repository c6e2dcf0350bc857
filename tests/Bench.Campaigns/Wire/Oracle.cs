using Bench.Model.Runs;
using Bench.Simulation.Faults;

namespace Bench.Campaigns.Wire;

/// <summary>Holds what was seen at the plant and on the wire against the rules (design, section 7); the record is judged, never believed.</summary>
public static class Oracle
{
    /// <summary>Name of the rule that no healthy unit is condemned.</summary>
    public const string Condemned = "condemned";

    /// <summary>Looks at one ended run.</summary>
    /// <param name="rig">Its family and bench.</param>
    /// <param name="plan">Its faults.</param>
    /// <param name="witness">What was seen of it.</param>
    /// <param name="record">Its record; null when none could be written.</param>
    public static IReadOnlyList<Violation> Look(Rig rig, FaultPlan plan, Witness witness, RunRecord? record)
    {
        ArgumentNullException.ThrowIfNull(rig);
        ArgumentNullException.ThrowIfNull(plan);
        ArgumentNullException.ThrowIfNull(witness);
        IReadOnlyList<Drive> drives = Drive.Of(witness);
        return
        [
            .. OutputRules.Look(rig, plan, witness, record),
            .. TimeRules.Look(rig, plan, witness, drives),
            .. HandRules.Look(plan, witness),
            .. SupplyRules.Look(rig, plan, witness, record),
            .. record is null ? [] : RecordRules.Look(plan, witness, record),
        ];
    }
}

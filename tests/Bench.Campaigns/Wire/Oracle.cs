using Bench.Model.Runs;
using Bench.Simulation.Faults;

namespace Bench.Campaigns.Wire;

/// <summary>Holds what was seen at the plant and on the wire against the rules (design, section 7); the record is judged, never believed.</summary>
public static class Oracle
{
    /// <summary>Name of the rule that no healthy unit is condemned.</summary>
    public const string Condemned = "condemned";

    /// <summary>Looks at one ended run.</summary>
    public static IReadOnlyList<Violation> Look(Rig rig, FaultPlan plan, Witness witness, RunRecord record)
    {
        ArgumentNullException.ThrowIfNull(rig);
        ArgumentNullException.ThrowIfNull(plan);
        ArgumentNullException.ThrowIfNull(witness);
        ArgumentNullException.ThrowIfNull(record);
        IReadOnlyList<Drive> drives = Drive.Of(witness);
        return
        [
            .. OutputRules.Look(rig, plan, witness, record),
            .. TimeRules.Look(rig, plan, witness, drives),
            .. RecordRules.Look(plan, witness, record),
        ];
    }
}

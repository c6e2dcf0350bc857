using Bench.Model.Features;
using Bench.Model.Moves;
using Bench.Model.Profiles;

namespace Bench.Tests.Running.Provoking;

/// <summary>The diverter with a demonstration of a few moves, then stages that provoke; worn brushes show in each of them.</summary>
internal static class ProvokingProfile
{
    /// <summary>The profile with stages that provoke, of the given kinds.</summary>
    public static Profile With(params StageKind[] kinds) => VirtualRun.Diverter with
    {
        Routine =
        [
            new Stage { Kind = StageKind.Supply, MostS = 0.2 },
            new Stage { Kind = StageKind.Homing, MostS = 20, Revolutions = 0, SettleMs = 200 },
            new Stage { Kind = StageKind.PortMoves, MostS = 60, MostMoves = 6, SettleMs = 200 },
            .. kinds.Select(k => new Stage { Kind = k, MostS = k == StageKind.Connector ? 30 : 120, MostMoves = 30, SettleMs = 200, P0 = 0.005, P1 = 0.2, WarmCelsius = k == StageKind.Warm ? 43 : null }),
        ],
        Demonstration = VirtualRun.Diverter.Demonstration with { P0 = 0.01, P1 = 0.5, MostMoves = 20, RingCoverage = 0 },
        Limits =
        [
            .. VirtualRun.Diverter.Limits.Where(l => !l.Feature.StartsWith("provoked.", StringComparison.Ordinal)),
            .. ProvokedFeatures.All.Select(f => new Limit { Feature = f, Upper = 0, Rule = DecisionRule.Simple, Severity = Severity.Repair, Remedy = "exchange-motor" }),
        ],
        FaultModes = [.. VirtualRun.Diverter.FaultModes.Select(m => m.Id == "worn-brushes" ? Provoked(m) : m)],
    };

    /// <summary>Whether a feature says what the unit is like in use, not what came of provoking it, nor what became of the links.</summary>
    public static bool IsOfTheUnitInUse(Feature feature) =>
        !feature.Name.StartsWith("bench.link", StringComparison.Ordinal) && !feature.Name.StartsWith("provoked.", StringComparison.Ordinal)
        && feature.Name != "motion.no_current_in_a_row";

    private static FaultMode Provoked(FaultMode mode)
    {
        Dictionary<string, double> shows = new(mode.Shows);
        foreach (string feature in ProvokedFeatures.All)
        {
            shows[feature] = 0.9;
        }

        // It may have been quiet in use: else a run without noise would rule it out.
        shows["current.noise_a"] = shows["current.interruptions"] = shows["winding.resistance_ohm"] = 0.3;
        return mode with { Shows = shows };
    }
}

using System.Diagnostics;
using Bench.Model.Moves;

namespace Bench.Model.Features;

/// <summary>Names of the features of stages that provoke an intermittent fault.</summary>
public static class ProvokedFeatures
{
    /// <summary>Short starts that failed.</summary>
    public const string FailedStarts = "provoked.failed_starts";

    /// <summary>Moves at the least supply that failed.</summary>
    public const string FailedAtLowSupply = "provoked.failed_low_supply_moves";

    /// <summary>Moves at the greatest supply that failed.</summary>
    public const string FailedAtHighSupply = "provoked.failed_high_supply_moves";

    /// <summary>Seconds in which a pair of wires opened while a person moved connector and cable.</summary>
    public const string ConnectorDropouts = "provoked.connector_dropout_seconds";

    /// <summary>Moves with the winding warm that failed.</summary>
    public const string FailedWarm = "provoked.failed_warm_moves";

    /// <summary>Moves made to provoke a fault in which almost no current flowed, of whatever stage.</summary>
    public const string NoCurrent = "provoked.no_current_moves";

    /// <summary>Why a stage that was not run gives nothing; nothing is missing for that.</summary>
    public const string NotRun = "the stage that provokes it was not run";

    /// <summary>Those of the stages, one each.</summary>
    public static IReadOnlyList<string> All { get; } = [FailedStarts, FailedAtLowSupply, FailedAtHighSupply, ConnectorDropouts, FailedWarm];

    /// <summary>Whether a feature is of a stage that was not run.</summary>
    public static bool IsNotRun(Feature feature)
    {
        ArgumentNullException.ThrowIfNull(feature);
        return feature.NotAssessableBecause == NotRun;
    }

    /// <summary>The feature that a stage which provokes feeds.</summary>
    /// <exception cref="ArgumentException">The stage does not provoke.</exception>
    public static string Of(StageKind kind) => kind switch
    {
        StageKind.Starts => FailedStarts,
        StageKind.LowSupply => FailedAtLowSupply,
        StageKind.HighSupply => FailedAtHighSupply,
        StageKind.Connector => ConnectorDropouts,
        StageKind.Warm => FailedWarm,
        _ when !kind.Provokes() => throw new ArgumentException($"a {kind} stage provokes nothing", nameof(kind)),
        _ => throw new UnreachableException($"a stage of kind {kind}"),
    };
}

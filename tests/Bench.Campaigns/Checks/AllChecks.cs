using Bench.Campaigns.Checks.Recordings;

namespace Bench.Campaigns.Checks;

/// <summary>Every check whose expected number is written down, in the order of the table.</summary>
public static class AllChecks
{
    /// <summary>The checks.</summary>
    public static IReadOnlyList<Check> Of() =>
    [
        .. UnivariateChecks.All(),
        .. RegressionChecks.All(),
        .. ShareChecks.All(),
        .. ManyTestsChecks.All(),
        .. SequentialChecks.All(),
        .. TrendChecks.All(),
        .. ChangeChecks.All(),
        .. CircularChecks.All(),
        .. PositioningChecks.All(),
        .. ConformityChecks.All(),
        .. MotorChecks.All(),
        .. RecordingChecks.All(),
    ];
}

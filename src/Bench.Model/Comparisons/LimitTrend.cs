namespace Bench.Model.Comparisons;

/// <summary>Where a difference leads as the limit sees it.</summary>
public enum LimitTrend
{
    /// <summary>There is no limit, or no difference.</summary>
    None,

    /// <summary>Nearer to the limit, or farther beyond it.</summary>
    TowardLimit,

    /// <summary>Away from the limit, or back within it.</summary>
    AwayFromLimit,
}

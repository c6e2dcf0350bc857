namespace Bench.Analysis.Trends;

/// <summary>What a course over a run does beyond its scatter.</summary>
public enum CourseKind
{
    /// <summary>It keeps its level.</summary>
    Level,

    /// <summary>It changes its level once and stays.</summary>
    Step,

    /// <summary>It moves on and on.</summary>
    Drift,

    /// <summary>It leaves its level for a while and comes back.</summary>
    Excursion,
}

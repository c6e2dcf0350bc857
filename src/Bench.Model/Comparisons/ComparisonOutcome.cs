namespace Bench.Model.Comparisons;

/// <summary>What two runs held against each other say of the unit.</summary>
public enum ComparisonOutcome
{
    /// <summary>What conformed does not any more, or sensors were lost; nothing got better.</summary>
    Worse,

    /// <summary>Something got worse and something got better.</summary>
    Mixed,

    /// <summary>What did not conform does, or sensors came back; nothing got worse.</summary>
    Better,

    /// <summary>Something differs by more than chance, yet no decision with it.</summary>
    ChangedWithinLimits,

    /// <summary>Nothing differs by more than chance. That is no proof of sameness.</summary>
    NoDifferenceShown,

    /// <summary>One of the runs has no features.</summary>
    NotAssessable,
}

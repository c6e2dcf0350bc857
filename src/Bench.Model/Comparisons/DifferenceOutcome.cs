namespace Bench.Model.Comparisons;

/// <summary>Whether a feature differs between two runs.</summary>
public enum DifferenceOutcome
{
    /// <summary>By more than chance, with all features compared allowed for (Holm).</summary>
    Differs,

    /// <summary>By more than its own uncertainty, yet among so many features one such is no surprise.</summary>
    Doubtful,

    /// <summary>By no more than its uncertainty, or than chance gives: no difference is shown, which is no proof of sameness.</summary>
    NotShown,

    /// <summary>A count or an answer that has no uncertainty to be held against, or events of which there was none in either run.</summary>
    NotTested,

    /// <summary>One of the runs has no value.</summary>
    NotAssessable,
}

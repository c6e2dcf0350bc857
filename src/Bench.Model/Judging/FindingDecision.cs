namespace Bench.Model.Judging;

/// <summary>A feature held against a limit.</summary>
public enum FindingDecision
{
    /// <summary>Inside, with the assurance the rule asks for.</summary>
    Conforms,

    /// <summary>Outside, with the assurance the rule asks for.</summary>
    DoesNotConform,

    /// <summary>Too close to the limit for its uncertainty.</summary>
    Undecided,

    /// <summary>There is no value.</summary>
    NotAssessable,
}

namespace Bench.Model.Profiles;

/// <summary>How a value with uncertainty is held against a limit (JCGM 106:2012, clause 8).</summary>
public enum DecisionRule
{
    /// <summary>The value alone decides; its uncertainty is reported (simple acceptance, 8.2). For counted events.</summary>
    Simple,

    /// <summary>
    /// Conforms only when the value lies inside by the expanded uncertainty, does not conform only when it lies
    /// outside by it, else undecided (guard bands both ways, 8.3).
    /// </summary>
    Guarded,
}

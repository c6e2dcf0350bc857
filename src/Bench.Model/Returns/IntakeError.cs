namespace Bench.Model.Returns;

/// <summary>An answer of the intake form that cannot be used.</summary>
/// <param name="Key">Key of the field.</param>
/// <param name="Found">What was answered.</param>
/// <param name="Allowed">What is allowed and what to do.</param>
public sealed record IntakeError(string Key, string Found, string Allowed)
{
    /// <summary>One line for a person.</summary>
    public override string ToString() => $"{Key}: found {Found}; {Allowed}";
}

namespace Bench.Campaigns.Wire;

/// <summary>A rule that a run broke.</summary>
/// <param name="Rule">The rule (S1 to S9, condemned, threw, defect).</param>
/// <param name="Text">What happened.</param>
public sealed record Violation(string Rule, string Text);

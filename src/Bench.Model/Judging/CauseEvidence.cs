namespace Bench.Model.Judging;

/// <summary>How one finding speaks for or against a cause (C13).</summary>
/// <param name="Feature">The feature found.</param>
/// <param name="Factor">How many times likelier the finding is under this cause than under the others, weighed by how common they are; above 1 speaks for it, below 1 against.</param>
public sealed record CauseEvidence(string Feature, double Factor);

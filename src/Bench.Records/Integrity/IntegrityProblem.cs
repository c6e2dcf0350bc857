namespace Bench.Records.Integrity;

/// <summary>Something in the store that is not as it was sealed.</summary>
/// <param name="Kind">Kind.</param>
/// <param name="Run">The run it concerns; null when it concerns the store.</param>
/// <param name="Text">What is wrong and where, in plain words.</param>
public sealed record IntegrityProblem(IntegrityProblemKind Kind, Guid? Run, string Text);

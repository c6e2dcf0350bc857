namespace Bench.Running.Hands;

/// <summary>A piece of work by hand, as the person reads it.</summary>
/// <param name="Work">Which.</param>
/// <param name="ToBe">What is to be done, for the record: "the valve is to be uncoupled".</param>
/// <param name="Done">That it was done, for the record.</param>
/// <param name="Why">What was found.</param>
/// <param name="Steps">What to do, cautions first, and what the bench expects to see.</param>
internal sealed record HandTask(HandWork Work, string ToBe, string Done, string Why, IReadOnlyList<string> Steps);

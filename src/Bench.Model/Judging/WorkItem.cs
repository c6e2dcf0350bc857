namespace Bench.Model.Judging;

/// <summary>One remedy in the order of work.</summary>
/// <param name="Remedy">Id of the remedy in the profile.</param>
/// <param name="Work">What to do.</param>
/// <param name="PartsCost">Cost of parts.</param>
/// <param name="Minutes">Minutes.</param>
/// <param name="Cost">Parts and labour.</param>
public sealed record WorkItem(string Remedy, string Work, double PartsCost, double Minutes, double Cost);

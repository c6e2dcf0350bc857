namespace Bench.Model.Runs;

/// <summary>Something that happened in a run.</summary>
/// <param name="TimeS">Seconds since the run began.</param>
/// <param name="Kind">Kind.</param>
/// <param name="Text">What, in plain words.</param>
public sealed record RunEvent(double TimeS, RunEventKind Kind, string Text);

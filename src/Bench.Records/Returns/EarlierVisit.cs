using Bench.Records.Runs;

namespace Bench.Records.Returns;

/// <summary>An earlier run of a unit that is back.</summary>
/// <param name="Run">The run.</param>
/// <param name="DaysBefore">Whole days between it and now.</param>
public sealed record EarlierVisit(RunSummary Run, int DaysBefore);

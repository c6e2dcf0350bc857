using Bench.Model.Moves;

namespace Bench.Running;

/// <summary>How far a run is.</summary>
/// <param name="Stage">The stage; null before the first.</param>
/// <param name="Moves">Moves made.</param>
/// <param name="ElapsedS">Seconds since the run began.</param>
/// <param name="RemainingS">Estimate of the seconds left of what runs now: of the demonstration, or of a stage that provokes; null when unknown.</param>
/// <param name="RingCoverage">Share of the ring tested so far, 0 to 1.</param>
/// <param name="Text">What happens, in plain words.</param>
public sealed record RunProgress(
    StageKind? Stage, int Moves, double ElapsedS, double? RemainingS, double RingCoverage, string Text);

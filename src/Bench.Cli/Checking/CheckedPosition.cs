using Bench.Analysis.Sightings;
using Bench.Running.Sampling;

namespace Bench.Cli.Checking;

/// <summary>A unit position, how often it can be read, what that means and how good it is.</summary>
/// <param name="Alone">Polled by itself.</param>
/// <param name="Together">Polled while all others were, too; null on a bench with one position.</param>
/// <param name="Plan">What the rate alone means for missed sensors; null without a profile or a reading.</param>
/// <param name="Graded">The grade; null when the feedback does not answer.</param>
internal sealed record CheckedPosition(RehearsedPolling Alone, RehearsedPolling? Together, SightingPlan? Plan, Graded? Graded);

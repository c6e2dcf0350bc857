using Bench.Analysis.Extraction;
using Bench.Model.Features;
using Bench.Model.Instruments;
using Bench.Model.Moves;
using Bench.Model.Profiles;
using Bench.Model.Runs;

namespace Bench.Tests.Analysis.Synthetic;

/// <summary>Extraction of a synthetic run.</summary>
internal static class SyntheticRun
{
    public static DateOnly Today { get; } = new(2026, 6, 1);

    public static LinkCounts[] Links(long ownFailed = 0, long feedbackFailed = 0) =>
    [
        new("board", "bus", false, 10_000, ownFailed, 0, 0),
        new("unit", "bus", true, 30_000, feedbackFailed, 0, 0),
    ];

    public static (RunFeatures Features, EvidenceState Evidence) Extract(SyntheticUnit unit, Profile? profile = null, LinkCounts[]? links = null, BenchSnapshot? bench = null)
    {
        RunExtraction extraction = new(profile ?? Diverter.Profile, bench ?? Diverter.Bench);
        foreach (Move move in unit.Moves)
        {
            extraction.AddMove(unit.Trace, move);
        }

        return (extraction.Complete(unit.Trace, links ?? Links(), Today), extraction.Evidence);
    }

    public static Feature Of(this RunFeatures features, string name, string? subject = null) =>
        features.Features.Single(f => f.Name == name && (subject is null || f.Subject == subject));

    public static double Value(this RunFeatures features, string name, string? subject = null) =>
        features.Of(name, subject).Value ?? throw new InvalidOperationException($"{name}: {features.Of(name, subject).NotAssessableBecause}");
}

using Bench.Analysis.Extraction;
using Bench.Analysis.Sequential;
using Bench.Analysis.Sightings;
using Bench.Model.Features;
using Bench.Model.Moves;
using Bench.Model.Profiles;
using Bench.Model.Runs;

namespace Bench.Running.Stages;

/// <summary>Tells the record and whoever watches which stage runs and how far it is.</summary>
internal sealed class StageReport(Profile profile, RunExtraction extraction, RunBook book, RunClock clock, IRunObserver? observer)
{
    /// <summary>Moves of a stage after which their own time is a guide.</summary>
    private const int Few = 3;

    private int _moves;
    private double _beganS;

    /// <summary>A move was made.</summary>
    public void MoveMade() => _moves++;

    /// <summary>A stage begins.</summary>
    /// <param name="stage">The stage.</param>
    /// <param name="text">What happens, for whoever watches.</param>
    public void Begin(Stage stage, string text)
    {
        book.Write(RunEventKind.Stage, StageNotes.Begins(stage.Kind));
        _beganS = clock.NowS;
        Tell(stage, text);
    }

    /// <summary>Something happens in a stage.</summary>
    public void Tell(Stage stage, string text)
    {
        EvidenceState evidence = extraction.Evidence;
        observer?.Progress(new RunProgress(stage.Kind, _moves, clock.NowS, RemainingS(stage), evidence.Coverage, text));
    }

    private double? RemainingS(Stage stage) => stage.Kind.Provokes() ? ProvokingS(stage) : UsualS(stage);

    // What is left of the sequential test and of the ring, whichever takes longer, at nominal speed. A unit whose moves fail
    // is not on its way there.
    private double? UsualS(Stage stage)
    {
        EvidenceState evidence = extraction.Evidence;
        if (evidence.Enough || evidence.Sequential == SequentialState.Refuted)
        {
            return null;
        }

        double revolutionS = profile.Ring.Counts / profile.Electrical.RunningSpeedCountsPerS;
        double moveS = (SightingPlan.RevolutionsPerMove * revolutionS) + (stage.SettleMs / 1000);
        double test = Math.Min(evidence.MovesToGo, Math.Max(0, profile.Demonstration.MostMoves - _moves)) * moveS;
        double ring = evidence.RevolutionsToGo * revolutionS * 1.2;
        return Math.Max(test, ring);
    }

    // What is left of the stage's own test, at the pace so far; a connector is watched by the second.
    private double? ProvokingS(Stage stage)
    {
        SequentialTest test = extraction.Provoked(stage.Kind);
        double sinceS = clock.NowS - _beganS;
        double? eachS = stage.Kind == StageKind.Connector ? 1 : test.Moves >= Few ? sinceS / test.Moves : null;
        return test.State == SequentialState.Continue && eachS is double s ? Math.Min(test.MovesToGo * s, Math.Max(0, stage.MostS - sinceS)) : null;
    }
}

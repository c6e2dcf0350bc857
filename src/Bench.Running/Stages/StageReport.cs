using Bench.Analysis.Extraction;
using Bench.Analysis.Sightings;
using Bench.Model.Profiles;
using Bench.Model.Runs;

namespace Bench.Running.Stages;

/// <summary>Tells the record and whoever watches which stage runs and how far it is.</summary>
internal sealed class StageReport(Profile profile, RunExtraction extraction, RunBook book, RunClock clock, IRunObserver? observer)
{
    private int _moves;

    /// <summary>A move was made.</summary>
    public void MoveMade() => _moves++;

    /// <summary>A stage begins.</summary>
    /// <param name="stage">The stage.</param>
    /// <param name="text">What happens, for whoever watches.</param>
    public void Begin(Stage stage, string text)
    {
        book.Write(RunEventKind.Stage, StageNotes.Begins(stage.Kind));
        Tell(stage, text);
    }

    /// <summary>Something happens in a stage.</summary>
    public void Tell(Stage stage, string text)
    {
        EvidenceState evidence = extraction.Evidence;
        observer?.Progress(new RunProgress(stage.Kind, _moves, clock.NowS, RemainingS(stage), evidence.Coverage, text));
    }

    // What is left of the sequential test and of the ring, whichever takes longer, at nominal speed.
    private double? RemainingS(Stage stage)
    {
        double revolutionS = profile.Ring.Counts / profile.Electrical.RunningSpeedCountsPerS;
        double moveS = (SightingPlan.RevolutionsPerMove * revolutionS) + (stage.SettleMs / 1000);
        double test = extraction.Evidence.MovesToGo * moveS;
        double ring = extraction.Evidence.RevolutionsToGo * revolutionS * 1.2;
        return Math.Max(test, ring);
    }
}

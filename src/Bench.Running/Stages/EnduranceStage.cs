using Bench.Analysis.Extraction;
using Bench.Model.Instruments;
using Bench.Model.Moves;
using Bench.Model.Profiles;
using Bench.Running.Moves;

namespace Bench.Running.Stages;

/// <summary>Moves that cover the ring until the stopping rule is content.</summary>
internal sealed class EnduranceStage(
    Profile profile, RunExtraction extraction, RunClock clock, MoveSequence moves, StageReport report) : IStageRunner
{
    /// <inheritdoc/>
    public StageKind Kind => StageKind.Endurance;

    /// <inheritdoc/>
    public async ValueTask<string?> RunAsync(Stage stage, CancellationToken cancel)
    {
        report.Begin(stage, "begins");
        double endS = clock.NowS + stage.MostS;
        for (int made = 0; made < stage.MostMoves && clock.NowS < endS; made++)
        {
            if (extraction.Evidence.Enough)
            {
                return extraction.Evidence.Because;
            }

            (int to, DriveDirection direction) = EnduranceTour.Next(profile, made, moves.Port);
            int turns = EnduranceTour.WholeTurns(extraction.Evidence, profile);
            if (await moves.ToPortAsync(stage, to, direction, cancel, turns) is { } ended)
            {
                return ended;
            }
        }

        return null;
    }
}

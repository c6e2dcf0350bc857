using Bench.Model.Instruments;
using Bench.Model.Moves;
using Bench.Model.Profiles;
using Bench.Running.Moves;

namespace Bench.Running.Stages;

/// <summary>
/// Provocation: many short starts. A brush that sticks or a dead part of the commutator keeps a motor from starting only
/// where it came to rest, so starts are made from ever other angles; behind a gear of hundreds to one a fraction of a
/// count is another angle of the rotor already, and travels of ever other lengths see to the rest.
/// </summary>
internal sealed class StartsStage(Profile profile, ProvokedMoves provoked, MoveSequence moves, StageReport report) : IStageRunner
{
    /// <summary>Shortest and longest travel, shares of the ring: at speed before it ends, and three to five times as many starts a minute as whole moves.</summary>
    private const double ShortestShare = 0.12;
    private const double LongestShare = 0.30;

    /// <inheritdoc/>
    public StageKind Kind => StageKind.Starts;

    /// <inheritdoc/>
    public async ValueTask<string?> RunAsync(Stage stage, CancellationToken cancel)
    {
        report.Begin(stage, "short starts, to provoke the fault");
        return await provoked.RunAsync(stage, made => Command(stage, made), cancel);
    }

    // Three up and two down, as in endurance, so that the starts creep on around the ring.
    private MoveCommand Command(Stage stage, int made)
    {
        (int next, DriveDirection direction) = EnduranceTour.Next(made, moves.Port, profile.Ports.Count, profile.CanReverse);
        if (profile.Feedback == FeedbackKind.Switches)
        {
            // Between two ports nothing tells how far it has come.
            return new MoveCommand(stage.Kind, direction, null, profile.Ports[next], 0, stage.SettleMs / 1000);
        }

        // Multiples of the golden ratio spread evenly, however many (Weyl, 1916).
        double share = ShortestShare + ((LongestShare - ShortestShare) * (made * 0.6180339887498949 % 1.0));
        int travel = (int)Math.Ceiling(share * profile.Ring.Counts);
        return new MoveCommand(stage.Kind, direction, null, null, 0, stage.SettleMs / 1000, TravelCounts: travel);
    }
}

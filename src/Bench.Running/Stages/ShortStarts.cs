using Bench.Model.Instruments;
using Bench.Model.Moves;
using Bench.Model.Profiles;
using Bench.Running.Moves;

namespace Bench.Running.Stages;

/// <summary>
/// Short travels from ever other angles, with as many starts a minute as duty allows. Behind a gear of hundreds to one a
/// fraction of a count is another angle of the rotor already, and travels of ever other lengths see to the rest.
/// </summary>
internal sealed class ShortStarts(Profile profile, MoveSequence moves)
{
    /// <summary>Shortest and longest travel, shares of the ring: at speed before it ends, and three to five times as many starts a minute as whole moves.</summary>
    private const double ShortestShare = 0.12;
    private const double LongestShare = 0.30;

    /// <summary>The next travel. Three up and two down, as in endurance, so that the starts creep on around the ring.</summary>
    /// <param name="kind">The stage it belongs to.</param>
    /// <param name="made">How many were made.</param>
    /// <param name="settleS">Rest after it, seconds.</param>
    public MoveCommand Command(StageKind kind, int made, double settleS)
    {
        (int next, DriveDirection direction) = EnduranceTour.Next(made, moves.Port, profile.Ports.Count, profile.CanReverse);
        if (profile.Feedback == FeedbackKind.Switches)
        {
            // Between two ports nothing tells how far it has come.
            return new MoveCommand(kind, direction, null, profile.Ports[next], 0, settleS);
        }

        // Multiples of the golden ratio spread evenly, however many (Weyl, 1916).
        double share = ShortestShare + ((LongestShare - ShortestShare) * (made * 0.6180339887498949 % 1.0));
        int travel = (int)Math.Ceiling(share * profile.Ring.Counts);
        return new MoveCommand(kind, direction, null, null, 0, settleS, TravelCounts: travel);
    }
}

using Bench.Analysis.Extraction;
using Bench.Model.Instruments;
using Bench.Model.Profiles;

namespace Bench.Running.Moves;

/// <summary>
/// Long moves that sweep the ring evenly: each nearly a revolution, so that sensors are passed often and rests are few;
/// three up, two down where the drive reverses, so that the tour creeps on and every port is approached both ways.
/// </summary>
internal static class EnduranceTour
{
    /// <summary>Share of the longest on-time that a move is planned for: a slow unit must not be cut off.</summary>
    private const double PlannedOnShare = 0.75;

    /// <summary>
    /// The port after <paramref name="made"/> moves of a unit that goes the short way by itself: the farthest, and at times
    /// the next, so that every port comes to be passed in full motion. With three ports none ever is.
    /// </summary>
    public static int NextOfShortWays(int made, int here, int ports) => (here + (made % 3 == 2 ? 1 : ports / 2)) % ports;

    /// <summary>The next move of a family's unit, by its drive.</summary>
    /// <param name="profile">The family.</param>
    /// <param name="made">Moves made.</param>
    /// <param name="here">Index of the port it stands at.</param>
    public static (int To, DriveDirection Direction) Next(Profile profile, int made, int here) => profile.Drive == DriveKind.Commanded
        ? (NextOfShortWays(made, here, profile.Ports.Count), DriveDirection.Up)
        : Next(made, here, profile.Ports.Count, profile.CanReverse);

    /// <summary>The next move of a stage, without whole turns.</summary>
    /// <param name="profile">The family.</param>
    /// <param name="stage">The stage.</param>
    /// <param name="made">Moves made.</param>
    /// <param name="here">Index of the port it stands at.</param>
    public static MoveCommand Command(Profile profile, Stage stage, int made, int here)
    {
        (int next, DriveDirection direction) = Next(profile, made, here);
        return new MoveCommand(stage.Kind, direction, null, profile.Ports[next], 0, stage.SettleMs / 1000);
    }

    /// <summary>The move after <paramref name="made"/> moves, from port <paramref name="here"/>.</summary>
    public static (int To, DriveDirection Direction) Next(int made, int here, int ports, bool canReverse)
    {
        bool up = !canReverse || made % 5 < 3;
        int to = up ? (here + ports - 1) % ports : (here + 1) % ports;
        return (to, up ? DriveDirection.Up : DriveDirection.Down);
    }

    /// <summary>
    /// Whole revolutions to turn besides. Where the ring asks for more turning than the moves still to be made would do,
    /// the rest is spread over them: a revolution more in a move costs no further rest, and leaves out no count where
    /// the unit speeds up or comes to land.
    /// </summary>
    public static int WholeTurns(EvidenceState evidence, Profile profile)
    {
        ElectricalData e = profile.Electrical;
        double share = (profile.Ports.Count - 1.0) / profile.Ports.Count;
        double perMove = evidence.RevolutionsToGo / (double)Math.Max(1, evidence.MovesToGo);
        double most = PlannedOnShare * profile.Safety.MostOnMs / 1000.0 * e.RunningSpeedCountsPerS / profile.Ring.Counts;
        return profile.Drive == DriveKind.Commanded || profile.Feedback == FeedbackKind.Switches
            ? 0
            : Math.Max(0, (int)Math.Min(Math.Ceiling(perMove - share), Math.Floor(most - share)));
    }
}

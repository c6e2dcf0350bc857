using Bench.Model.Instruments;

namespace Bench.Running.Moves;

/// <summary>
/// Long moves that sweep the ring evenly: each nearly a revolution, so that sensors are passed often and rests are few;
/// three up, two down where the drive reverses, so that the tour creeps on and every port is approached both ways.
/// </summary>
internal static class EnduranceTour
{
    /// <summary>
    /// The port after <paramref name="made"/> moves of a unit that goes the short way by itself: the farthest, and at times
    /// the next, so that every port comes to be passed in full motion. With three ports none ever is.
    /// </summary>
    public static int NextOfShortWays(int made, int here, int ports) => (here + (made % 3 == 2 ? 1 : ports / 2)) % ports;

    /// <summary>The move after <paramref name="made"/> moves, from port <paramref name="here"/>.</summary>
    public static (int To, DriveDirection Direction) Next(int made, int here, int ports, bool canReverse)
    {
        bool up = !canReverse || made % 5 < 3;
        int to = up ? (here + ports - 1) % ports : (here + 1) % ports;
        return (to, up ? DriveDirection.Up : DriveDirection.Down);
    }
}

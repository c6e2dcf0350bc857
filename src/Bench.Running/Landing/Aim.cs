using Bench.Model.Instruments;
using Bench.Model.Profiles;
using Bench.Running.Moves;

namespace Bench.Running.Landing;

/// <summary>What a move is to do from where the unit stands.</summary>
/// <param name="TravelCounts">Counts to travel, signed.</param>
/// <param name="TargetCount">Count to land at, on the ring.</param>
/// <param name="Direction">Which way.</param>
internal sealed record Aim(int TravelCounts, int TargetCount, DriveDirection Direction)
{
    /// <summary>A landing within less of the ring than this is made by way of another revolution: the unit would not reach its speed.</summary>
    private const double LeastTravelShare = 0.12;

    /// <summary>The aim of a command from a count.</summary>
    public static Aim From(int count, MoveCommand command, Profile profile)
    {
        int n = profile.Ring.Counts;
        bool up = command.Direction == DriveDirection.Up;
        int turn = up ? n : -n;
        int travel = (command.Revolutions * turn) + ((command.TravelCounts ?? 0) * Math.Sign(turn));
        if (command.To is { } to)
        {
            travel += profile.Ring.Travel(count, to.Count, up);
            if (Math.Abs(travel) < LeastTravelShare * n)
            {
                travel += turn;
            }
        }

        return new Aim(travel, profile.Ring.Place((long)count + travel), command.Direction);
    }
}

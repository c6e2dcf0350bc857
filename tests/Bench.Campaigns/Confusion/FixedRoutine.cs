using Bench.Model.Moves;
using Bench.Model.Profiles;
using Bench.Model.Runs;

namespace Bench.Campaigns.Confusion;

/// <summary>
/// The routine of fixed length that a unit would go through without a stopping rule: the fixed plan's moves, turning the
/// ring as often as nearly every healthy unit needed at the slowest link, because a fixed routine can't know its link.
/// </summary>
/// <param name="Moves">Moves of the fixed plan.</param>
/// <param name="Turns">Revolutions turned in them.</param>
/// <param name="TestS">Time from the run's begin to its end, seconds.</param>
/// <param name="MovesAloneS">The same if the ring need not be covered, seconds.</param>
public sealed record FixedRoutine(int Moves, double Turns, double TestS, double MovesAloneS)
{
    /// <summary>
    /// Share of healthy units at the slowest link whose ring the routine must cover: the sequential one covers it of more
    /// than 99 in 100, and a routine that held more of them would not have its error rates.
    /// </summary>
    public const double Served = 0.99;

    /// <summary>The same for a routine that may hold as many healthy units as the bench's target lets it, though the sequential one holds far fewer.</summary>
    public const double ServedAtLeast = 0.95;

    /// <summary>Revolutions that a run turned.</summary>
    public static double TurnsOf(RunRecord record) =>
        record.Moves.Sum(m => Math.Abs(m.TravelCounts)) / (double)record.Start.Profile.Ring.Counts;

    /// <summary>The routine of a family.</summary>
    /// <param name="profile">The family.</param>
    /// <param name="slowest">Healthy units at the slowest link, each tested until its ring was covered; at least one.</param>
    /// <param name="served">Share of them whose ring it must cover.</param>
    public static FixedRoutine Of(Profile profile, IReadOnlyList<RunRecord> slowest, double served = Served)
    {
        int moves = FixedPlan.Moves(profile.Demonstration);
        double[] turned = [.. slowest.Select(TurnsOf).Order()];

        // Long moves of the tour, less those of the homing and the port moves that are shorter; the ring may ask for more.
        double tour = slowest.Average(r => TurnsOf(r with { Moves = [.. r.Moves.Where(m => m.Stage != StageKind.Endurance)] }));
        double before = slowest.Average(r => r.Moves.Count(m => m.Stage != StageKind.Endurance));
        double alone = tour + ((moves - before) * (1 - (1.0 / profile.Ports.Count)));
        double turns = Math.Max(alone, turned[(int)Math.Ceiling(served * turned.Length) - 1]);

        // Rest by moves and turning by revolutions, as these runs took them; no more of the time than the duty limit allows.
        double turningS = slowest.Average(r => r.Moves.Sum(m => m.DriveOffS - m.DriveOnS) / TurnsOf(r));
        double restS = slowest.Average(r => r.Moves.Average(m => m.SettledS - m.DriveOffS));
        double beginS = slowest.Average(r => r.Moves[0].DriveOnS);
        return new FixedRoutine(moves, turns, Seconds(turns), Seconds(alone));

        double Seconds(double revolutions) =>
            beginS + Math.Max((revolutions * turningS) + (moves * restS), revolutions * turningS / profile.Safety.MostDuty);
    }
}

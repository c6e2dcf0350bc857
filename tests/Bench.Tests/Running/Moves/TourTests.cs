using Bench.Analysis.Extraction;
using Bench.Model.Features;
using Bench.Model.Instruments;
using Bench.Model.Profiles;
using Bench.Running.Moves;
using Bench.Tests.Running.Kinds;
using Bench.Tests.Simulation;

namespace Bench.Tests.Running.Moves;

public class TourTests
{
    [Theory]
    [InlineData(2, true, 4)]
    [InlineData(3, false, 6)]
    [InlineData(4, true, 24)]
    [InlineData(8, true, 112)]
    public void PortTour_AnyPorts_MakesEveryPairEachWayOnceAndReturns(int ports, bool canReverse, int moves)
    {
        IReadOnlyList<(int To, DriveDirection Direction)> tour = PortTour.Make(ports, canReverse);
        HashSet<(int, int, DriveDirection)> seen = [];
        int here = 0;
        foreach ((int to, DriveDirection direction) in tour)
        {
            Assert.NotEqual(here, to);
            Assert.True(canReverse || direction == DriveDirection.Up);
            Assert.True(seen.Add((here, to, direction)));
            here = to;
        }

        Assert.Equal(moves, tour.Count);
        Assert.Equal(0, here);
    }

    [Theory]
    [InlineData(4)]
    [InlineData(6)]
    public void EnduranceTour_OfShortWays_PassesEveryPortOnTheWayToAnother(int ports)
    {
        HashSet<int> passed = [];
        int here = 0;
        for (int made = 0; made < 4 * ports; made++)
        {
            int to = EnduranceTour.NextOfShortWays(made, here, ports);
            for (int port = (here + 1) % ports; port != to; port = (port + 1) % ports)
            {
                passed.Add(port);
            }

            here = to;
        }

        Assert.Equal(ports, passed.Count);
    }

    [Theory]
    [InlineData(3, false)]
    [InlineData(4, true)]
    public void EnduranceTour_OverManyMoves_VisitsEveryPortEachWayTheDriveAllows(int ports, bool canReverse)
    {
        HashSet<(int, DriveDirection)> landings = [];
        int here = 0;
        for (int made = 0; made < 4 * ports * ports; made++)
        {
            (int to, DriveDirection direction) = EnduranceTour.Next(made, here, ports, canReverse);
            landings.Add((to, direction));
            here = to;
        }

        Assert.Equal(canReverse ? 2 * ports : ports, landings.Count);
    }

    [Theory]
    [InlineData(12, 9, 0)] // nine revolutions are what twelve moves of three quarters turn
    [InlineData(12, 10, 1)]
    [InlineData(12, 20, 1)]
    [InlineData(12, 22, 1)] // a second one would last longer than three quarters of the on-time
    [InlineData(0, 1, 1)]
    [InlineData(12, 0, 0)]
    public void EnduranceTour_RingAsksForMoreThanTheMovesTurn_SpreadsWholeTurnsOverThem(int moves, int revolutions, int turns)
    {
        EvidenceState evidence = new()
        {
            Sequential = SequentialState.Continue,
            MovesToGo = moves,
            Coverage = 0.5,
            RevolutionsToGo = revolutions,
            StillInARow = 0,
            Enough = false,
            Because = "",
        };
        Assert.Equal(turns, EnduranceTour.WholeTurns(evidence, Families.Diverter));
    }

    // A unit that closes its own loop goes the short way whatever it is asked; a tour that took it for another would never pass half of its ports.
    [Fact]
    public void Next_ByDrive_IsTheShortWaysOfACommandedUnitAndTheLongOnesOfAnyOther()
    {
        Profile commanded = KindRun.Profile("feed-router-4");

        Assert.All(Enumerable.Range(0, 12), made =>
        {
            Assert.Equal((EnduranceTour.NextOfShortWays(made, made % 4, 4), DriveDirection.Up), EnduranceTour.Next(commanded, made, made % 4));
            Assert.Equal(EnduranceTour.Next(made, made % 4, 4, canReverse: true), EnduranceTour.Next(VirtualRun.Diverter, made, made % 4));
        });
    }
}

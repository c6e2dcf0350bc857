using Bench.Simulation.Units;
using CsCheck;

namespace Bench.Tests.Simulation.Units;

public class PlayTests
{
    [Fact]
    public void Move_AnyWay_DrivenPartStaysWithinHalfThePlayAndMovesOnlyWhenPushed() =>
        Gen.Select(Gen.Double[0.0, 20.0], Gen.Double[-5.0, 5.0].Array[1, 50]).Sample((width, moves) =>
        {
            Play play = new(width, 0.0);
            double driver = 0.0;
            double driven = 0.0;
            foreach (double move in moves)
            {
                driver += move;
                double moved = play.Move(move);
                driven += moved;
                Assert.InRange(driver - driven, (-width / 2.0) - 1e-9, (width / 2.0) + 1e-9);
                Assert.True(moved == 0.0 || Math.Sign(moved) == Math.Sign(move));
                Assert.True(moved == 0.0 || play.Engaged(Math.Sign(move)));
            }
        });

    [Fact]
    public void Move_ThereAndBack_LosesThePlay()
    {
        Play play = new(12.0, 6.0);
        Assert.Equal(30.0, play.Move(30.0), 1e-12);
        Assert.Equal(-18.0, play.Move(-30.0), 1e-12);
    }
}

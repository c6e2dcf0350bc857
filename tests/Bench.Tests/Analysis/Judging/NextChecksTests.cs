using Bench.Analysis.Judging;
using Bench.Model.Judging;
using Bench.Model.Profiles;
using Bench.Tests.Analysis.Synthetic;

namespace Bench.Tests.Analysis.Judging;

// By hand: -p log2 p - (1 - p) log2 (1 - p) is 1 bit at 0.5, 0.8813 at 0.3, 0.7219 at 0.2.
public class NextChecksTests
{
    private static readonly Cause[] Causes = [new("a", "Valve", 0.5), new("b", "Motor", 0.3), new("none", "No fault", 0.2)];

    [Fact]
    public void Rank_OneQuickAndOneSlow_PutsMostInformationAMinuteFirst()
    {
        // 1 bit in 10 min is 0.1 a minute; 0.8813 bits in 5 min are 0.176.
        IReadOnlyList<RankedCheck> ranked = NextChecks.Rank(Causes, With(("a", "Turn it.", 10), ("b", "Measure it.", 5), ("none", null, null)));
        Assert.Equal(["b", "a"], ranked.Select(r => r.Mode.Id));
        Assert.Equal(0.8812908992, ranked[0].Bits, 1e-9);
        Assert.Equal(1, ranked[1].Bits, 1e-12);
        Assert.Equal("tells motor from valve in about 5 min", CheckSentence.Worth(ranked[0]));
        Assert.Equal("tells valve from motor in about 10 min", CheckSentence.Worth(ranked[1]));
    }

    [Fact]
    public void Rank_OneCheckOfTwoModes_IsOnceAndTellsBoth()
    {
        // All three told apart: the whole entropy, 1.4855 bits.
        RankedCheck check = Assert.Single(NextChecks.Rank(Causes, With(("a", "Turn it.", null), ("b", "Turn it.", null), ("none", null, null))));
        Assert.Equal("a", check.Mode.Id);
        Assert.Equal(1.4854752972, check.Bits, 1e-9);
        Assert.Equal("tells valve from motor", CheckSentence.Worth(check));
    }

    [Fact]
    public void Rank_QuickCheckOfWhatIsHardlyThere_IsNone() =>
        Assert.Equal(["a"], NextChecks.Rank([new("a", "Valve", 0.95), new("b", "Motor", 0.05)], With(("a", "Turn it.", 60), ("b", "Measure it.", 1))).Select(r => r.Mode.Id));

    [Fact]
    public void Rank_CauseIsCertain_HasNothingToTell() =>
        Assert.Empty(NextChecks.Rank([new("a", "Valve", 1), new("none", "No fault", 0)], With(("a", "Turn it.", 5), ("none", null, null))));

    private static Profile With(params (string Id, string? Check, double? Minutes)[] modes) => Diverter.Profile with
    {
        FaultModes = [.. modes.Select(m => new FaultMode
        {
            Id = m.Id,
            Name = Causes.First(c => c.Id == m.Id).Name,
            Prior = 0.1,
            Shows = new Dictionary<string, double>(),
            NextCheck = m.Check,
            Minutes = m.Minutes,
            ExplainsFeedbackFault = false,
        })],
    };
}

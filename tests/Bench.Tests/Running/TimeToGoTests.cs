using Bench.Model.Moves;
using Bench.Model.Profiles;
using Bench.Running;
using Bench.Tests.Running.Provoking;

namespace Bench.Tests.Running;

/// <summary>What whoever watches a run is told of the time it still takes.</summary>
public class TimeToGoTests
{
    private static readonly Profile Starts = ProvokingProfile.With(StageKind.Starts);

    // It grew by a minute with every move that failed: to half an hour for a run that ended within two minutes.
    [Fact]
    public void Remaining_UnitWhoseMovesFail_IsUnknownOnceTheyHaveShownIt()
    {
        List<RunProgress> told = Watch(VirtualRun.Diverter, "worn-brushes");

        Assert.Null(told[^1].RemainingS);
        Assert.All(told, t => Assert.True(t.RemainingS is null or < 300, t.ToString()));
    }

    // It said "0 s to go" for as long as the starts went on.
    [Fact]
    public void Remaining_WhileStartsAreMade_FallsToNothingAtTheirEnd()
    {
        List<RunProgress> starts = [.. Watch(Starts, "healthy").Where(t => t.Stage == StageKind.Starts)];
        double endS = starts[^1].ElapsedS;

        Assert.All(starts[..3], t => Assert.Null(t.RemainingS));
        Assert.All(starts[5..], t => Assert.InRange(t.RemainingS!.Value, 0.5 * (endS - t.ElapsedS), (1.5 * (endS - t.ElapsedS)) + 2));
        Assert.All(starts[5..], t => Assert.True(t.RemainingS > 0));
    }

    private static List<RunProgress> Watch(Profile profile, string condition)
    {
        Watching watching = new();
        new VirtualRun(profile, condition) { Observer = watching }.Execute();
        return watching.Told;
    }

    private sealed class Watching : IRunObserver
    {
        public List<RunProgress> Told { get; } = [];

        public void Progress(RunProgress progress) => Told.Add(progress);
    }
}

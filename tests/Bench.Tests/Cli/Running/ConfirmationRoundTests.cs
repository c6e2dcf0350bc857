using Bench.Cli.Running;
using Bench.Running;

namespace Bench.Tests.Cli.Running;

public class ConfirmationRoundTests : IOperator
{
    private readonly List<string> _asked = [];
    private readonly Dictionary<string, TaskCompletionSource<bool>> _answers = new()
    {
        ["A"] = new(),
        ["B"] = new(),
        ["C"] = new(),
    };

    private readonly ConfirmationRound _round;

    public ConfirmationRoundTests() => _round = new ConfirmationRound(this, 3);

    [Fact]
    public async Task Confirm_Several_AsksInOrderAndLetsNoneGoBeforeAllAreAnswered()
    {
        Task<bool> third = Ask(2, "C");
        Task<bool> first = Ask(0, "A");
        Task<bool> second = Ask(1, "B");
        await Answer("A", true);
        await Answer("B", true);
        Assert.False(first.IsCompleted);
        Assert.False(second.IsCompleted);
        await Answer("C", true);
        bool[] answers = await Task.WhenAll(first, second, third);
        Assert.Equal([true, true, true], answers);
        Assert.Equal(["A", "B", "C"], _asked);
    }

    [Fact]
    public async Task Confirm_OneRefused_LeavesThatOneOutAndNothingElse()
    {
        Task<bool>[] all = [Ask(0, "A"), Ask(1, "B"), Ask(2, "C")];
        await Answer("A", true);
        await Answer("B", false);
        await Answer("C", true);
        bool[] answers = await Task.WhenAll(all);
        Assert.Equal([true, false, true], answers);
    }

    [Fact]
    public async Task Confirm_OneEndedBeforeItAsked_IsNotWaitedFor()
    {
        Task<bool> third = Ask(2, "C");
        _round.Leave(1);
        Task<bool> first = Ask(0, "A");
        await Answer("A", true);
        await Answer("C", true);
        Assert.True(await first);
        Assert.True(await third);
        Assert.Equal(["A", "C"], _asked.Order());
    }

    [Fact]
    public async Task Confirm_Cancelled_EndsAll()
    {
        using CancellationTokenSource cancel = new();
        Task<bool>[] all = [Ask(0, "A", cancel.Token), Ask(1, "B", cancel.Token)];
        await cancel.CancelAsync();
        _answers["A"].SetCanceled(cancel.Token);
        foreach (Task<bool> one in all)
        {
            await Assert.ThrowsAnyAsync<OperationCanceledException>(() => one);
        }
    }

    [Theory]
    [InlineData(HandWork.ReseatFeedback, true)]
    [InlineData(HandWork.UncoupleValve, false)]
    [InlineData(HandWork.DisturbConnector, false)]
    public async Task HasDone_SeveralUnits_NobodyTakesOneApartBesideOthersThatMayTurn(HandWork work, bool done) =>
        Assert.Equal(done, await _round.For(1).HasDoneAsync(work, "B", "", [], TestContext.Current.CancellationToken));

    [Theory]
    [InlineData(HandWork.ReseatFeedback, true)]
    [InlineData(HandWork.ApproachConnector, false)]
    public void CanAsk_SeveralUnits_OnlyForWhatIsSafeBesideOthers(HandWork work, bool can) => Assert.Equal(can, ((IOperator)_round.For(1)).CanAsk(work));

    public ValueTask<bool> HasDoneAsync(HandWork work, string serial, string why, IReadOnlyList<string> steps, CancellationToken cancel) => new(true);

    public ValueTask<bool> ConfirmAsync(
        string serial, IReadOnlyList<string> cautions, IReadOnlyList<string> wiring, CancellationToken cancel)
    {
        _asked.Add(serial);
        return new(_answers[serial].Task);
    }

    private Task<bool> Ask(int unit, string serial, CancellationToken? cancel = null) =>
        _round.For(unit).ConfirmAsync(serial, [], [], cancel ?? TestContext.Current.CancellationToken).AsTask();

    // Answered, and waited for until the next one has been asked.
    private async Task Answer(string serial, bool yes)
    {
        while (!_asked.Contains(serial))
        {
            await Task.Yield();
        }

        _answers[serial].SetResult(yes);
        await Task.Yield();
    }
}

using Bench.Model.Judging;
using Bench.Records;
using Bench.Records.Outboxes;

namespace Bench.Tests.Records.Outboxes;

public sealed class OutboxTests : IDisposable
{
    private readonly DataFolder _folder = new();
    private readonly RecordStore _store;
    private readonly Guid _run;

    public OutboxTests()
    {
        _store = _folder.Open();
        _run = RunWriting.Seal(_store, SampleRuns.Start()).Start.Id;
        _store.AddJudgement(_run, SampleRuns.Judgement(Disposition.Scrap), "2.0.0", new string('d', 64));
    }

    [Fact]
    public void Waiting_RunAndEntry_ComeInTheOrderTheyWereSealed()
    {
        IReadOnlyList<OutboxItem> items = _store.Outbox.Waiting(10);

        Assert.Equal([(_run, null), (null, 1L)], items.Select(i => (i.Run, i.Entry)));
        Assert.Equal(_store.Find(_run.ToString())!.Hash, items[0].Hash);
        Assert.Equal(_store.Entries(_run)[0].Hash, items[1].Hash);
        Assert.StartsWith("{", items[0].Text, StringComparison.Ordinal);
    }

    [Fact]
    public void Acknowledged_Item_IsNotSentAgain()
    {
        Outbox outbox = _store.Outbox;
        outbox.Acknowledged(outbox.Waiting(1)[0].Sequence, FixedTime.Now);

        Assert.Equal(1, outbox.Count);
        Assert.Null(Assert.Single(outbox.Waiting(10)).Run);
    }

    [Fact]
    public void Failed_Item_StaysAndSaysWhy()
    {
        Outbox outbox = _store.Outbox;
        long first = outbox.Waiting(1)[0].Sequence;
        outbox.Failed(first, "the hub did not answer");
        outbox.Failed(first, "the hub is full");

        OutboxItem item = outbox.Waiting(1)[0];
        Assert.Equal((first, 2, "the hub is full"), (item.Sequence, item.Attempts, item.LastError));
    }

    [Fact]
    public void Waiting_OpenRun_IsNotInIt()
    {
        using (_store.Begin(SampleRuns.Start(2)))
        {
            Assert.Equal(2, _store.Outbox.Count);
        }
    }

    public void Dispose()
    {
        _store.Dispose();
        _folder.Dispose();
    }
}

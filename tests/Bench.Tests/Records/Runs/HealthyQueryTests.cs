using Bench.Model.Judging;
using Bench.Model.Runs;
using Bench.Records;

namespace Bench.Tests.Records.Runs;

public sealed class HealthyQueryTests : IDisposable
{
    private readonly DataFolder _folder = new();
    private readonly RecordStore _store;

    public HealthyQueryTests() => _store = _folder.Open();

    [Fact]
    public void HealthyCurrents_SeveralTestsOfUnits_GivesTheNewestOfEachNewestFirst()
    {
        Seal(1, "ND4-0001", 0.21);
        Seal(2, "ND4-0002", 0.22);
        Seal(3, "ND4-0001", 0.23);

        Assert.Equal([0.23, 0.22], Found(10));
        Assert.Equal([0.23], Found(1));
    }

    [Fact]
    public void HealthyCurrents_TheUnitItself_IsNoReference()
    {
        Seal(1, "ND4-0009", 0.21);

        Assert.Empty(Found(10));
    }

    [Fact]
    public void HealthyCurrents_OtherProfileRealityOrDisposition_IsNoReference()
    {
        Seal(1, "ND4-0001", 0.21, start: s => s with { Profile = s.Profile with { Sha256 = new string('9', 64) } });
        Seal(2, "ND4-0002", 0.22, start: s => s with { Simulated = false, SimulatedCondition = null });
        Seal(3, "ND4-0003", 0.23, Disposition.Repairable);
        Seal(4, "ND4-0004", 0.24);

        Assert.Equal([0.24], Found(10));
    }

    [Fact]
    public void HealthyCurrents_LaterJudgedOtherwise_IsNoReference()
    {
        RunStart start = Seal(1, "ND4-0001", 0.21);
        Seal(2, "ND4-0002", 0.22);
        _store.AddJudgement(start.Id, SampleRuns.Judgement(Disposition.Scrap), "2", new string('9', 64));

        Assert.Equal([0.22], Found(10));
    }

    public void Dispose()
    {
        _store.Dispose();
        _folder.Dispose();
    }

    private double?[] Found(int most) => [.. _store.HealthyCurrents(SampleRuns.Start(99, "ND4-0009"), most).Select(h => h.Profile.MeanA[0])];

    private RunStart Seal(int n, string serial, double meanA, Disposition disposition = Disposition.Reusable, Func<RunStart, RunStart>? start = null)
    {
        RunStart begun = (start ?? (s => s))(SampleRuns.Start(n, serial));
        RunRecord record = SampleRuns.Record(begun, SampleRuns.Trace(5));
        record = record with
        {
            Judgement = SampleRuns.Judgement(disposition),
            Features = record.Features! with { Current = record.Features.Current with { MeanA = [meanA], Samples = [9] } },
        };
        using IRunJournal journal = _store.Begin(begun);
        journal.Seal(record, SampleRuns.Trace(5));
        return begun;
    }
}

using Bench.Model.Moves;
using Bench.Model.Runs;
using Bench.Model.Traces;

namespace Bench.Campaigns.Confusion;

/// <summary>A journal that keeps nothing: the record is all that is looked at.</summary>
internal sealed class NoJournal : IRunJournal
{
    public void Write(RunEvent entry)
    {
    }

    public void Write(int first, ReadOnlySpan<Sample> samples)
    {
    }

    public void Write(Move move)
    {
    }

    public void Seal(RunRecord record, Trace trace)
    {
    }

    public void Dispose()
    {
    }
}

using System.Buffers.Binary;
using System.Security.Cryptography;
using System.Text.Json;
using Bench.Model.Moves;
using Bench.Model.Runs;
using Bench.Model.Serialization;
using Bench.Model.Traces;

namespace Bench.Campaigns.Wire;

/// <summary>A journal that keeps a hash of trace and record, and the events for the witness; it can be made to refuse from some instant on.</summary>
internal sealed class HashingJournal(Witness witness) : IRunJournal
{
    private readonly IncrementalHash _hash = IncrementalHash.CreateHash(HashAlgorithmName.SHA256);

    /// <summary>Hash of all samples and of the sealed record; only after sealing.</summary>
    public byte[] Hash => _hash.GetCurrentHash();

    public bool IsSealed { get; private set; }

    public void Write(RunEvent entry)
    {
        Take();
        witness.Events.Add(new Stamped(witness.NowS, entry));
    }

    public void Write(int first, ReadOnlySpan<Sample> samples)
    {
        Take();
        Span<byte> row = stackalloc byte[36];
        foreach (Sample sample in samples)
        {
            BinaryPrimitives.WriteDoubleLittleEndian(row, sample.TimeS);
            BinaryPrimitives.WriteDoubleLittleEndian(row[8..], sample.CurrentA);
            BinaryPrimitives.WriteDoubleLittleEndian(row[16..], sample.VoltageV);
            BinaryPrimitives.WriteInt32LittleEndian(row[24..], sample.Count);
            BinaryPrimitives.WriteInt32LittleEndian(row[28..], ((int)sample.Drive << 16) | (int)sample.Feedback);
            BinaryPrimitives.WriteInt32LittleEndian(row[32..], (int)sample.Index);
            _hash.AppendData(row);
        }
    }

    public void Write(Move move) => Take();

    public void Seal(RunRecord record, Trace trace)
    {
        Take();
        _hash.AppendData(JsonSerializer.SerializeToUtf8Bytes(record, BenchJson.Compact));
        IsSealed = true;
    }

    public void Dispose() => _hash.Dispose();

    private void Take()
    {
        if (witness.NowS >= witness.UnwritableS)
        {
            throw new JournalException("the disk is full", new IOException());
        }
    }
}

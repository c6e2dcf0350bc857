using Bench.Devices.Links;

namespace Bench.Tests.Devices;

/// <summary>A link whose far end is a function: what comes back to each request, and how long after it.</summary>
public sealed class ScriptedLink(TimeProvider time, TimeSpan characterTime = default) : ILink
{
    private readonly ByteInbox _inbox = new();

    /// <summary>Bytes that come back, each with its delay after the request.</summary>
    public Func<byte[], IEnumerable<(TimeSpan After, byte[] Bytes)>> Far { get; set; } = _ => [];

    public List<byte[]> Sent { get; } = [];

    public List<long> SentAt { get; } = [];

    public bool Gone { get; set; }

    public bool Disposed { get; private set; }

    public string Name => "bus";

    public TimeSpan CharacterTime => characterTime;

    public ValueTask WriteAsync(ReadOnlyMemory<byte> bytes, CancellationToken cancel)
    {
        if (Gone)
        {
            throw new IOException("pulled");
        }

        Sent.Add(bytes.ToArray());
        SentAt.Add(time.GetTimestamp());
        foreach ((TimeSpan after, byte[] answer) in Far(bytes.ToArray()))
        {
            time.CreateTimer(_ => _inbox.Put(answer), null, after, Timeout.InfiniteTimeSpan);
        }

        return ValueTask.CompletedTask;
    }

    public ValueTask<int> ReadAsync(Memory<byte> buffer, CancellationToken cancel) => _inbox.ReadAsync(buffer, cancel);

    public void DiscardInput() => _inbox.Clear();

    public void End() => _inbox.End();

    public ValueTask DisposeAsync()
    {
        Disposed = true;
        return ValueTask.CompletedTask;
    }
}

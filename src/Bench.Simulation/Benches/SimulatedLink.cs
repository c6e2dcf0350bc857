using Bench.Devices.Links;

namespace Bench.Simulation.Benches;

/// <summary>One end of a simulated link.</summary>
internal sealed class SimulatedLink(string name, TimeSpan characterTime) : ILink
{
    private readonly ByteInbox _inbox = new();
    private SimulatedLink? _other;
    private IWire? _out;
    private bool _gone;

    /// <summary>Where bytes for this end arrive.</summary>
    internal ByteInbox Inbox => _inbox;

    /// <summary>Called once, when this end is closed.</summary>
    internal Action? Closed { get; init; }

    /// <inheritdoc/>
    public string Name => name;

    /// <inheritdoc/>
    public TimeSpan CharacterTime => characterTime;

    /// <inheritdoc/>
    public ValueTask WriteAsync(ReadOnlyMemory<byte> bytes, CancellationToken cancel)
    {
        cancel.ThrowIfCancellationRequested();
        if (_gone || _out is null)
        {
            throw new IOException($"{name} went away");
        }

        _out.Send(bytes.Span);
        return ValueTask.CompletedTask;
    }

    /// <inheritdoc/>
    public ValueTask<int> ReadAsync(Memory<byte> buffer, CancellationToken cancel) => _inbox.ReadAsync(buffer, cancel);

    /// <inheritdoc/>
    public void DiscardInput() => _inbox.Clear();

    /// <inheritdoc/>
    public ValueTask DisposeAsync()
    {
        if (!_gone)
        {
            Part(null);
            Closed?.Invoke();
        }

        return ValueTask.CompletedTask;
    }

    /// <summary>Joins two ends by a wire each way.</summary>
    internal static void Join(SimulatedLink a, IWire aToB, SimulatedLink b, IWire bToA)
    {
        a._other = b;
        a._out = aToB;
        b._other = a;
        b._out = bToA;
    }

    /// <summary>Cuts the wires: both ends find the link lost.</summary>
    internal void Cut() => Part($"{name} went away: the line was cut");

    private void Part(string? lost)
    {
        foreach (SimulatedLink? end in new[] { this, _other })
        {
            if (end is { _gone: false })
            {
                end._gone = true;
                end._out?.Dispose();
                end._inbox.End(lost);
            }
        }
    }
}

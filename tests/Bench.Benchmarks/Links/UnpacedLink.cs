using Bench.Devices.Links;

namespace Bench.Benchmarks.Links;

/// <summary>A link that claims its characters take no time, so that no silence is kept: libmodbus keeps none either.</summary>
internal sealed class UnpacedLink(ILink link) : ILink
{
    public string Name => link.Name;

    public TimeSpan CharacterTime => TimeSpan.Zero;

    public ValueTask WriteAsync(ReadOnlyMemory<byte> bytes, CancellationToken cancel) => link.WriteAsync(bytes, cancel);

    public ValueTask<int> ReadAsync(Memory<byte> buffer, CancellationToken cancel) => link.ReadAsync(buffer, cancel);

    public void DiscardInput() => link.DiscardInput();

    public ValueTask DisposeAsync() => link.DisposeAsync();
}

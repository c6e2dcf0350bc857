using Bench.Devices.Links;
using Bench.Model.BenchFiles;

namespace Bench.Campaigns.Wire;

/// <summary>Links that a witness listens to, at the program's end.</summary>
internal sealed class WatchedLinks(ILinkOpener inner, Witness witness) : ILinkOpener
{
    public async ValueTask<ILink> OpenAsync(LinkDescription link, CancellationToken cancel) =>
        new WatchedLink(
            await inner.OpenAsync(link, cancel),
            link.Protocol == LinkProtocol.Scpi ? new LineListener(witness) : new FrameListener(witness, link.Protocol == LinkProtocol.ModbusRtu));

    private sealed class WatchedLink(ILink inner, IListener listener) : ILink
    {
        public string Name => inner.Name;

        public TimeSpan CharacterTime => inner.CharacterTime;

        public ValueTask WriteAsync(ReadOnlyMemory<byte> bytes, CancellationToken cancel)
        {
            listener.Sent(bytes.Span);
            return inner.WriteAsync(bytes, cancel);
        }

        public async ValueTask<int> ReadAsync(Memory<byte> buffer, CancellationToken cancel)
        {
            int read = await inner.ReadAsync(buffer, cancel);
            listener.Received(buffer.Span[..read]);
            return read;
        }

        public void DiscardInput() => inner.DiscardInput();

        public ValueTask DisposeAsync() => inner.DisposeAsync();
    }
}

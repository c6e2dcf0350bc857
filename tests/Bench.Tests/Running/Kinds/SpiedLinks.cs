using Bench.Devices.Links;
using Bench.Model.BenchFiles;

namespace Bench.Tests.Running.Kinds;

/// <summary>Links that keep what is sent over them.</summary>
internal sealed class SpiedLinks(ILinkOpener inner, List<byte[]> sent) : ILinkOpener
{
    public async ValueTask<ILink> OpenAsync(LinkDescription link, CancellationToken cancel) =>
        new SpiedLink(await inner.OpenAsync(link, cancel), sent);

    private sealed class SpiedLink(ILink inner, List<byte[]> sent) : ILink
    {
        public string Name => inner.Name;

        public TimeSpan CharacterTime => inner.CharacterTime;

        public ValueTask WriteAsync(ReadOnlyMemory<byte> bytes, CancellationToken cancel)
        {
            sent.Add(bytes.ToArray());
            return inner.WriteAsync(bytes, cancel);
        }

        public ValueTask<int> ReadAsync(Memory<byte> buffer, CancellationToken cancel) => inner.ReadAsync(buffer, cancel);

        public void DiscardInput() => inner.DiscardInput();

        public ValueTask DisposeAsync() => inner.DisposeAsync();
    }
}

using Bench.Devices.Links;
using Bench.Model.BenchFiles;

namespace Bench.Tests.Running;

/// <summary>Links that fail at a chosen request: once (it is lost) or from then on (the link is dead).</summary>
internal sealed class BrokenLinks(ILinkOpener inner, int failsAt, bool forGood) : ILinkOpener
{
    private readonly int _failsAt = failsAt;
    private readonly bool _forGood = forGood;

    /// <summary>Requests sent so far.</summary>
    public int Requests { get; private set; }

    public async ValueTask<ILink> OpenAsync(LinkDescription link, CancellationToken cancel) =>
        new BrokenLink(this, await inner.OpenAsync(link, cancel));

    private sealed class BrokenLink(BrokenLinks owner, ILink inner) : ILink
    {
        public string Name => inner.Name;

        public TimeSpan CharacterTime => inner.CharacterTime;

        public ValueTask WriteAsync(ReadOnlyMemory<byte> bytes, CancellationToken cancel)
        {
            int request = ++owner.Requests;
            bool fails = owner._failsAt > 0 && (owner._forGood ? request >= owner._failsAt : request == owner._failsAt);
            return fails
                ? owner._forGood ? throw new IOException("the adapter was unplugged") : ValueTask.CompletedTask
                : inner.WriteAsync(bytes, cancel);
        }

        public ValueTask<int> ReadAsync(Memory<byte> buffer, CancellationToken cancel) => inner.ReadAsync(buffer, cancel);

        public void DiscardInput() => inner.DiscardInput();

        public ValueTask DisposeAsync() => inner.DisposeAsync();
    }
}

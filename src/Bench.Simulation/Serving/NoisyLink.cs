using Bench.Devices.Links;
using Bench.Simulation.Benches;

namespace Bench.Simulation.Serving;

/// <summary>A link whose wires damage frames on their way in and out.</summary>
internal sealed class NoisyLink(ILink inner, LineNoise requests, LineNoise answers) : ILink
{
    public string Name => inner.Name;

    public TimeSpan CharacterTime => inner.CharacterTime;

    public ValueTask WriteAsync(ReadOnlyMemory<byte> bytes, CancellationToken cancel)
    {
        byte[] frame = bytes.ToArray();
        int arriving = answers.Pass(frame);
        return arriving == 0 ? ValueTask.CompletedTask : inner.WriteAsync(frame.AsMemory(0, arriving), cancel);
    }

    public async ValueTask<int> ReadAsync(Memory<byte> buffer, CancellationToken cancel)
    {
        while (true)
        {
            int read = await inner.ReadAsync(buffer, cancel);
            int arriving = requests.Pass(buffer.Span[..read]);
            if (read == 0 || arriving > 0)
            {
                return arriving;
            }
        }
    }

    public void DiscardInput() => inner.DiscardInput();

    public ValueTask DisposeAsync() => inner.DisposeAsync();

    /// <summary>The link itself where the bench's wires are sound.</summary>
    internal static ILink Over(ILink inner, SimulatedBench bench, string link) =>
        bench.Noise(link, "requests") is { } requests && bench.Noise(link, "answers") is { } answers
            ? new NoisyLink(inner, requests, answers)
            : inner;
}

using Bench.Devices.Buses;
using Bench.Devices.Meters;
using Bench.Model.BenchFiles;
using Bench.Model.Instruments;
using Bench.Model.Profiles;

namespace Bench.Devices.Feedbacks;

/// <summary>
/// One switch per port. Exactly one closed is a reading, the count of its port; none closed is between ports, where the
/// count is not known; more than one contradict each other.
/// </summary>
public sealed class SwitchFeedback : IFeedback
{
    private readonly IReadOnlyList<(Channel Input, int Count)> _switches;
    private readonly IReadOnlyList<IChannelSource> _sources;
    private readonly Func<bool> _moving;

    internal SwitchFeedback(
        IReadOnlyList<PortSwitch> switches, IReadOnlyList<Port> ports, IReadOnlyList<IChannelSource> sources, Func<bool> moving)
    {
        _switches = [.. switches.Select(s => (s.Input, ports.First(p => p.Name == s.Port).Count))];
        _sources = sources;
        _moving = moving;
    }

    /// <inheritdoc/>
    public async ValueTask<FeedbackReading> ReadAsync(CancellationToken cancel)
    {
        BusClass line = _moving() ? BusClass.Moving : BusClass.Rest;
        long at = 0;
        double uncertainty = 0;
        foreach (IChannelSource source in _sources)
        {
            (DeviceFault? fault, at, double half) = await source.ReadAsync(line, cancel);
            uncertainty = Math.Max(uncertainty, half);
            if (fault is not null)
            {
                return new CountReading(fault.Kind, 0, at, half).Failed;
            }
        }

        List<int> closed = [];
        foreach ((Channel input, int count) in _switches)
        {
            IChannelSource source = _sources.First(s => s.Holds(input, isInput: true));
            if ((source.Value(input) != 0) != input.ActiveLow)
            {
                closed.Add(count);
            }
        }

        return closed.Count switch
        {
            0 => new(FeedbackStatus.BetweenPorts, 0, at, uncertainty),
            1 => new(FeedbackStatus.Ok, closed[0], at, uncertainty),
            _ => new(FeedbackStatus.SwitchesContradict, 0, at, uncertainty),
        };
    }
}

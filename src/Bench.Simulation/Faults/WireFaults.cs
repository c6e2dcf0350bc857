using Bench.Devices.Modbus;
using Bench.Model.BenchFiles;
using Bench.Simulation.Chance;

namespace Bench.Simulation.Faults;

/// <summary>The part of a plan that concerns one link's frames.</summary>
internal sealed class WireFaults
{
    private readonly HashSet<int> _feedbacks;
    private readonly int _addressAt;

    internal WireFaults(FaultPlan plan, BenchFile file, LinkDescription link)
    {
        All = [.. plan.Faults.Where(f => f.Kind is <= FaultKind.WrongParity or FaultKind.HalfOpen or FaultKind.SlowPeer or FaultKind.FeedbackGarbled)];
        Random = new SeededRandom(plan.Seed).Fork($"wire {link.Name}");
        Foreign = new ForeignTraffic(file, link.Name, Random.Fork("foreign"));
        InOrder = link.Kind == LinkKind.Tcp;
        _addressAt = InOrder ? TcpFrame.HeaderBytes - 1 : 0;
        HashSet<string> feedbacks = [.. file.Positions.Where(p => p.Count is { } c && c.Device != p.Up.Device).Select(p => p.Count!.Device)];
        _feedbacks = [.. file.Devices.Where(d => feedbacks.Contains(d.Name)).Select(d => d.Address)];
    }

    internal IReadOnlyList<Fault> All { get; }

    internal SeededRandom Random { get; }

    internal ForeignTraffic Foreign { get; }

    /// <summary>Whether bytes never overtake each other, as in a TCP stream.</summary>
    internal bool InOrder { get; }

    /// <summary>Frames hit so far that were not the feedback's own.</summary>
    internal int HitsBesideFeedback { get; private set; }

    /// <summary>Takes down that a frame was hit.</summary>
    internal void Hit(ReadOnlySpan<byte> frame) => HitsBesideFeedback += _feedbacks.Contains(frame[_addressAt]) ? 0 : 1;

    internal bool AnyAt(double timeS)
    {
        foreach (Fault fault in All)
        {
            if (timeS >= fault.AtS && timeS < fault.EndS)
            {
                return true;
            }
        }

        return false;
    }

    internal bool Concerns(Fault fault, WireSide side, ReadOnlySpan<byte> frame)
    {
        if (fault.Kind == FaultKind.FeedbackGarbled)
        {
            return side == WireSide.Answers && _feedbacks.Contains(frame[_addressAt]);
        }

        if (fault.Kind is FaultKind.Echo or FaultKind.HalfOpen or FaultKind.SlowPeer)
        {
            return true;
        }

        FunctionCode function = (FunctionCode)(frame[_addressAt + 1] & 0x7F);
        bool coils = function is FunctionCode.ReadCoils or FunctionCode.WriteCoil or FunctionCode.WriteCoils;
        return fault.Side.HasFlag(side) && (coils || !fault.OnlyCoils);
    }
}

using System.Text;
using Bench.Devices.Modbus;
using Bench.Model.BenchFiles;
using Bench.Simulation.Chance;

namespace Bench.Simulation.Faults;

/// <summary>The part of a plan that concerns one link's frames.</summary>
internal sealed class WireFaults
{
    private readonly HashSet<int> _feedbacks;
    private readonly int _addressAt;
    private readonly bool _lines;
    private bool _outputAsked;

    internal WireFaults(FaultPlan plan, BenchFile file, LinkDescription link)
    {
        _lines = link.Protocol is LinkProtocol.Scpi or LinkProtocol.Lines;
        All = [.. plan.Faults.Where(f => Befalls(f.Kind, link.Kind == LinkKind.Tcp))];
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
    internal void Hit(ReadOnlySpan<byte> frame) => HitsBesideFeedback += !_lines && _feedbacks.Contains(frame[_addressAt]) ? 0 : 1;

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

    /// <summary>Takes down whether a line asks for outputs; its answer, which does not say so, concerns them as much.</summary>
    internal void Request(ReadOnlySpan<byte> frame) => _outputAsked = _lines && IsSetting(Encoding.ASCII.GetString(frame));

    internal bool Concerns(Fault fault, WireSide side, ReadOnlySpan<byte> frame)
    {
        if (_lines)
        {
            return fault.Kind is FaultKind.HalfOpen or FaultKind.SlowPeer || (fault.Side.HasFlag(side) && (_outputAsked || !fault.OnlyOutputs));
        }

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
        return fault.Side.HasFlag(side) && (coils || !fault.OnlyOutputs);
    }

    // A line from one instrument to one program knows no other master, no echo and no frame sent twice.
    private bool Befalls(FaultKind kind, bool tcp) => kind switch
    {
        FaultKind.Lost or FaultKind.Split or FaultKind.Merged or FaultKind.Late => true,
        FaultKind.BitFlipped or FaultKind.Noise or FaultKind.WrongParity => !tcp,
        FaultKind.Doubled or FaultKind.Foreign or FaultKind.Echo or FaultKind.FeedbackGarbled => !tcp && !_lines,
        FaultKind.HalfOpen or FaultKind.SlowPeer => tcp,
        _ => false,
    };

    private static bool IsSetting(string line) =>
        (line.Contains("VOLT", StringComparison.Ordinal) && !line.StartsWith("MEAS", StringComparison.Ordinal))
        || line.Contains("OUTP", StringComparison.Ordinal) || line.StartsWith("SYST:ERR", StringComparison.Ordinal);

}

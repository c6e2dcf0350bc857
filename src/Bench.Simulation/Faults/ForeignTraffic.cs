using Bench.Devices.Modbus;
using Bench.Model.BenchFiles;
using Bench.Simulation.Chance;

namespace Bench.Simulation.Faults;

/// <summary>
/// Frames of a bus that is not the bench's alone: another master's requests, and answers of addresses that the bench
/// does not have. They are whole frames, for others. Another master that writes to the bench's own board is no fault
/// of wires, and is left out: no program can guard against it.
/// </summary>
internal sealed class ForeignTraffic
{
    private const int PlainAnswers = 4;
    private readonly int[] _others;
    private readonly SeededRandom _random;

    internal ForeignTraffic(BenchFile file, string link, SeededRandom random)
    {
        IEnumerable<int> own = file.Devices.Where(d => d.Link == link).Select(d => d.Address);
        _others = [.. Enumerable.Range(1, ModbusLimits.GreatestAddress).Except(own)];
        _random = random;
    }

    /// <summary>A frame that devices hear: another master reads from one of its own devices.</summary>
    internal byte[] Request()
    {
        byte[] frame = [0, (byte)_random.Whole(1, PlainAnswers), 0, (byte)_random.Whole(0, 7), 0, (byte)_random.Whole(1, 8), 0, 0];
        RtuFrame.Close(frame, Other(), frame.Length - RtuFrame.Overhead);
        return frame;
    }

    /// <summary>A frame that the program hears: such a request, or its answer.</summary>
    internal byte[] Heard()
    {
        if (_random.Happens(0.5))
        {
            return Request();
        }

        int bytes = _random.Whole(1, 8);
        byte[] frame = new byte[bytes + RtuFrame.Overhead + 2];
        frame[1] = (byte)_random.Whole(1, PlainAnswers);
        frame[2] = (byte)bytes;
        for (int i = 0; i < bytes; i++)
        {
            frame[3 + i] = (byte)_random.Whole(0, byte.MaxValue);
        }

        RtuFrame.Close(frame, Other(), frame.Length - RtuFrame.Overhead);
        return frame;
    }

    private int Other() => _others[_random.Whole(0, _others.Length - 1)];
}

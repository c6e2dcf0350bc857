using Bench.Devices.Links;
using Bench.Devices.Modbus;

namespace Bench.Tests.Simulation.Benches;

/// <summary>The plainest master: sends one RTU frame, takes what comes within a time.</summary>
internal sealed class RawMaster(ILink link, TimeProvider time)
{
    private readonly byte[] _frame = new byte[ModbusLimits.MostRtuBytes];

    /// <summary>Every byte that came back, in order, for whole-run comparisons.</summary>
    public List<byte> Heard { get; } = [];

    /// <summary>Sends a PDU; returns the answering PDU, empty when nothing whole came within 40 ms.</summary>
    public async Task<byte[]> Ask(int unit, params byte[] pdu)
    {
        pdu.CopyTo(_frame, 1);
        link.DiscardInput();
        await link.WriteAsync(_frame.AsMemory(0, RtuFrame.Close(_frame, unit, pdu.Length)), CancellationToken.None);
        using CancellationTokenSource late = new(TimeSpan.FromMilliseconds(40), time);
        byte[] answer = new byte[ModbusLimits.MostRtuBytes];
        try
        {
            int read = await link.ReadAsync(answer, late.Token);
            Heard.AddRange(answer.AsSpan(0, read));
            return RtuFrame.IsWhole(answer.AsSpan(0, read)) ? RtuFrame.Pdu(answer.AsSpan(0, read)).ToArray() : [];
        }
        catch (OperationCanceledException)
        {
            return [];
        }
    }

    public async Task<bool> Coil(int address, bool on) => (await Ask(1, 5, 0, (byte)address, (byte)(on ? 0xFF : 0), 0)).Length == 5;

    public async Task<int[]> InputRegisters(int unit, int first, int count)
    {
        byte[] pdu = await Ask(unit, 4, (byte)(first >> 8), (byte)first, 0, (byte)count);
        return pdu.Length == 2 + (2 * count) && pdu[0] == 4
            ? [.. Enumerable.Range(0, count).Select(i => (pdu[2 + (2 * i)] << 8) | pdu[3 + (2 * i)])]
            : [];
    }
}

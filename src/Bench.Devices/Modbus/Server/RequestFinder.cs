namespace Bench.Devices.Modbus.Server;

/// <summary>
/// Finds requests in a stream of bytes. RTU frames are told by function code, byte count and CRC at every offset,
/// so noise, another device's answer or half a frame costs at most itself, whatever gaps the channel made or lost.
/// </summary>
internal sealed class RequestFinder(ModbusServer server, bool rtu)
{
    private readonly byte[] _bytes = new byte[4 * ModbusLimits.MostTcpBytes];
    private int _count;

    /// <summary>Where the next bytes go; never empty after <see cref="TryTake"/> has said there is no more.</summary>
    public Memory<byte> Room => _bytes.AsMemory(_count);

    /// <summary>Says how many bytes were put into <see cref="Room"/>.</summary>
    public void Added(int bytes) => _count += bytes;

    /// <summary>Takes the first whole request out.</summary>
    /// <param name="frame">Where it is copied to.</param>
    /// <returns>Its length; 0 when there is none yet.</returns>
    public int TryTake(Span<byte> frame)
    {
        (int start, int length) = rtu ? FindRtu() : FindTcp();
        _bytes.AsSpan(start, length).CopyTo(frame);
        int used = start + length;
        _bytes.AsSpan(used, _count - used).CopyTo(_bytes);
        _count -= used;
        return length;
    }

    private (int Start, int Length) FindRtu()
    {
        // The first offset at which a frame may still grow whole; all before it is noise.
        int keep = Math.Max(0, _count - ModbusLimits.MostRtuBytes);
        bool mayGrow = false;
        for (int start = 0; start < _count; start++)
        {
            ReadOnlySpan<byte> rest = _bytes.AsSpan(start, _count - start);
            int length = RtuFrame.RequestLength(rest);
            bool longDiagnostics = length > 0 && length < rest.Length && rest[1] == (byte)FunctionCode.Diagnostics
                && !RtuFrame.IsWhole(rest[..length]);
            if ((length == RtuFrame.UnknownFunction || longDiagnostics) && server.Has(rest[0]))
            {
                // Nothing tells this frame's length but its CRC: it may end with the bytes that are here.
                length = RtuFrame.IsWhole(rest) ? rest.Length : RtuFrame.NotYetKnown;
            }

            if (length > 0 && length <= rest.Length && RtuFrame.IsWhole(rest[..length]))
            {
                return (start, length);
            }

            bool incomplete = length == RtuFrame.NotYetKnown || (length > rest.Length && length <= ModbusLimits.MostRtuBytes);
            if (incomplete && !mayGrow && start >= keep)
            {
                mayGrow = true;
                keep = start;
            }
        }

        return (mayGrow ? keep : _count, 0);
    }

    private (int Start, int Length) FindTcp() => TcpFrame.Length(_bytes.AsSpan(0, _count)) switch
    {
        // Out of step: nothing in the stream marks where the next frame begins, so all of it goes.
        TcpFrame.Broken => (_count, 0),
        int length when length <= _count => (0, length),
        _ => (0, 0),
    };
}

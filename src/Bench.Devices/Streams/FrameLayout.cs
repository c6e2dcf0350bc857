using System.Buffers.Binary;
using Bench.Devices.Modbus;
using Bench.Model.BenchFiles;

namespace Bench.Devices.Streams;

/// <summary>What a frame's bytes mean, both ways: the reader's and the simulated device's.</summary>
public sealed class FrameLayout
{
    private readonly StreamDescription _stream;
    private readonly byte[] _sync;
    private readonly StreamField[] _fields;
    private readonly bool _highFirst;

    /// <summary>Makes a layout.</summary>
    public FrameLayout(StreamDescription stream)
    {
        ArgumentNullException.ThrowIfNull(stream);
        _stream = stream;
        _sync = [.. stream.Sync];
        _fields = [.. stream.Fields];
        _highFirst = stream.Bytes == ByteOrder.HighFirst;
    }

    /// <summary>Length of a frame, bytes.</summary>
    public int Length => _stream.FrameBytes;

    /// <summary>What a frame begins with.</summary>
    public ReadOnlySpan<byte> Sync => _sync;

    /// <summary>Whether damage within a frame can be seen.</summary>
    public bool IsChecked => _stream.Check != FrameCheckKind.None;

    /// <summary>Numbers in a frame.</summary>
    public int Fields => _fields.Length;

    /// <summary>Where among a frame's numbers a field is.</summary>
    /// <exception cref="ArgumentException">There is no such field.</exception>
    public int IndexOf(string field)
    {
        int index = Array.FindIndex(_fields, f => f.Name == field);
        return index >= 0 ? index : throw new ArgumentException($"the stream has no field '{field}'", nameof(field));
    }

    /// <summary>Whether a frame's check is right; where there is none, any is.</summary>
    public bool IsWhole(ReadOnlySpan<byte> frame) => _stream.Check switch
    {
        FrameCheckKind.Sum8 => frame[^1] == Sum(frame[..^1]),
        FrameCheckKind.Crc16 => BinaryPrimitives.ReadUInt16LittleEndian(frame[^2..]) == Crc16.Of(frame[..^2]),
        _ => true,
    };

    /// <summary>The counter of a frame.</summary>
    public uint Sequence(ReadOnlySpan<byte> frame) => Unsigned(frame[_stream.SequenceOffset..], _stream.SequenceBits / 8);

    /// <summary>Whether a counter is the next after another.</summary>
    public bool Follows(uint counter, uint before) => unchecked(counter - before) == 1 || (counter == 0 && before == uint.MaxValue >> (32 - _stream.SequenceBits));

    /// <summary>Takes the numbers out of a frame.</summary>
    /// <param name="frame">The frame.</param>
    /// <param name="values">Takes them, in the order of the bench file.</param>
    /// <returns>False when one is a float that is no finite number: the frame is no reading.</returns>
    public bool TryRead(ReadOnlySpan<byte> frame, Span<double> values)
    {
        for (int i = 0; i < _fields.Length; i++)
        {
            StreamField field = _fields[i];
            uint bits = Unsigned(frame[field.Offset..], field.Bytes);
            values[i] = field.Type switch
            {
                FieldType.Int16 => unchecked((short)bits),
                FieldType.Int32 => (double)unchecked((int)bits), // to double: its common type with a float holds 24 bits only
                FieldType.Float32 => (double)BitConverter.UInt32BitsToSingle(bits),
                _ => (double)bits,
            };
            if (!double.IsFinite(values[i]))
            {
                return false;
            }
        }

        return true;
    }

    /// <summary>Makes up a frame.</summary>
    /// <param name="sequence">Its counter; wraps.</param>
    /// <param name="values">Its numbers, rounded and clipped to what their fields hold.</param>
    /// <param name="frame">Takes it.</param>
    public void Write(uint sequence, ReadOnlySpan<double> values, Span<byte> frame)
    {
        frame = frame[..Length];
        frame.Clear();
        _sync.CopyTo(frame);
        Put(frame[_stream.SequenceOffset..], _stream.SequenceBits / 8, sequence);
        for (int i = 0; i < _fields.Length; i++)
        {
            Put(frame[_fields[i].Offset..], _fields[i].Bytes, Bits(_fields[i].Type, values[i]));
        }

        if (_stream.Check == FrameCheckKind.Sum8)
        {
            frame[^1] = Sum(frame[..^1]);
        }
        else if (_stream.Check == FrameCheckKind.Crc16)
        {
            BinaryPrimitives.WriteUInt16LittleEndian(frame[^2..], Crc16.Of(frame[..^2]));
        }
    }

    private static byte Sum(ReadOnlySpan<byte> bytes)
    {
        int sum = 0;
        foreach (byte b in bytes)
        {
            sum += b;
        }

        return (byte)(sum & 0xFF);
    }

    private static uint Bits(FieldType type, double value) => type switch
    {
        FieldType.Uint8 => (uint)Math.Clamp(Math.Round(value), byte.MinValue, byte.MaxValue),
        FieldType.Uint16 => (uint)Math.Clamp(Math.Round(value), ushort.MinValue, ushort.MaxValue),
        FieldType.Int16 => unchecked((ushort)(short)Math.Clamp(Math.Round(value), short.MinValue, short.MaxValue)),
        FieldType.Int32 => unchecked((uint)(int)Math.Clamp(Math.Round(value), int.MinValue, int.MaxValue)),
        _ => BitConverter.SingleToUInt32Bits((float)value),
    };

    private uint Unsigned(ReadOnlySpan<byte> bytes, int count)
    {
        uint value = 0;
        for (int i = 0; i < count; i++)
        {
            value |= (uint)bytes[i] << (8 * (_highFirst ? count - 1 - i : i));
        }

        return value;
    }

    private void Put(Span<byte> bytes, int count, uint value)
    {
        for (int i = 0; i < count; i++)
        {
            bytes[i] = (byte)((value >> (8 * (_highFirst ? count - 1 - i : i))) & 0xFF);
        }
    }
}

namespace Bench.Devices.Modbus.Values;

/// <summary>How a quantity stands in registers: value = raw x scale + offset.</summary>
/// <param name="Kind">What the bits mean.</param>
/// <param name="Order">Which word comes first; without meaning for one register.</param>
/// <param name="Scale">Units per count; finite and not 0.</param>
/// <param name="Offset">Value of a raw 0; finite.</param>
public sealed record RegisterValue(
    ValueKind Kind, WordOrder Order = WordOrder.BigEndian, double Scale = 1, double Offset = 0)
{
    /// <summary>Units per count; finite and not 0.</summary>
    public double Scale { get; } = double.IsFinite(Scale) && Scale != 0
        ? Scale
        : throw new ArgumentOutOfRangeException(nameof(Scale), Scale, "a scale is a finite number other than 0");

    /// <summary>Value of a raw 0; finite.</summary>
    public double Offset { get; } = double.IsFinite(Offset)
        ? Offset
        : throw new ArgumentOutOfRangeException(nameof(Offset), Offset, "an offset is a finite number");

    /// <summary>Registers the value takes: 1 or 2.</summary>
    public int Registers => Kind is ValueKind.Unsigned16 or ValueKind.Signed16 ? 1 : 2;

    /// <summary>Takes the value out of its registers.</summary>
    /// <param name="registers">At least <see cref="Registers"/>, in the order of their addresses.</param>
    /// <returns>The value; null where a float holds no finite number, which is how devices say that they have none.</returns>
    public double? Decode(ReadOnlySpan<ushort> registers)
    {
        uint bits = Registers == 1 ? registers[0] : Join(registers);

        // Each arm to double: their own common type is float, which holds only 24 bits of an integer.
        double raw = Kind switch
        {
            ValueKind.Unsigned16 or ValueKind.Unsigned32 => (double)bits,
            ValueKind.Signed16 => (double)unchecked((short)bits),
            ValueKind.Signed32 => (double)unchecked((int)bits),
            _ => (double)BitConverter.UInt32BitsToSingle(bits),
        };
        double value = (raw * Scale) + Offset;
        return double.IsFinite(value) ? value : null;
    }

    /// <summary>Puts a value into its registers, rounded to the nearest count.</summary>
    /// <param name="value">The value.</param>
    /// <param name="registers">Takes it; at least <see cref="Registers"/>.</param>
    /// <returns>False, and nothing is put, when the value is no number or beyond what the registers hold.</returns>
    public bool TryEncode(double value, Span<ushort> registers)
    {
        double raw = (value - Offset) / Scale;
        double count = Math.Round(raw);
        (double least, double most) = Kind switch
        {
            ValueKind.Unsigned16 => ((double)ushort.MinValue, (double)ushort.MaxValue),
            ValueKind.Signed16 => ((double)short.MinValue, (double)short.MaxValue),
            ValueKind.Unsigned32 => ((double)uint.MinValue, (double)uint.MaxValue),
            ValueKind.Signed32 => ((double)int.MinValue, (double)int.MaxValue),
            _ => ((double)float.MinValue, (double)float.MaxValue),
        };
        bool isFloat = Kind == ValueKind.Float32;
        if (!((isFloat ? raw : count) >= least && (isFloat ? raw : count) <= most))
        {
            return false; // also when it is no number
        }

        uint bits = isFloat ? BitConverter.SingleToUInt32Bits((float)raw) : unchecked((uint)(long)count);
        if (Registers == 1)
        {
            registers[0] = unchecked((ushort)bits);
        }
        else
        {
            (ushort high, ushort low) = ((ushort)(bits >> 16), (ushort)(bits & 0xFFFF));
            (registers[0], registers[1]) = Order == WordOrder.BigEndian ? (high, low) : (low, high);
        }

        return true;
    }

    private uint Join(ReadOnlySpan<ushort> registers) => Order == WordOrder.BigEndian
        ? ((uint)registers[0] << 16) | registers[1]
        : ((uint)registers[1] << 16) | registers[0];
}

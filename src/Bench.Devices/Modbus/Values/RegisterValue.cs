using Bench.Model.BenchFiles;

namespace Bench.Devices.Modbus.Values;

/// <summary>How a quantity stands in registers: value = raw x scale + offset.</summary>
/// <param name="Kind">What the bits mean.</param>
/// <param name="Order">Which word comes first; without meaning for one register.</param>
/// <param name="Scale">Units per count; finite and not 0.</param>
/// <param name="Offset">Value of a raw 0; finite.</param>
public sealed record RegisterValue(
    RegisterType Kind, WordOrder Order = WordOrder.HighFirst, double Scale = 1, double Offset = 0)
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
    public int Registers => Kind is RegisterType.Uint16 or RegisterType.Int16 ? 1 : 2;

    /// <summary>Takes the value out of its registers.</summary>
    /// <param name="registers">At least <see cref="Registers"/>, in the order of their addresses.</param>
    /// <returns>The value; null where a float holds no finite number, which is how devices say that they have none.</returns>
    public double? Decode(ReadOnlySpan<ushort> registers)
    {
        double? value = (Decode(Kind, Order, registers) * Scale) + Offset;
        return value is double finite && double.IsFinite(finite) ? finite : null;
    }

    /// <summary>As <see cref="Decode(ReadOnlySpan{ushort})"/>, neither scaled nor shifted.</summary>
    public static double? Decode(RegisterType kind, WordOrder order, ReadOnlySpan<ushort> registers)
    {
        uint bits = kind is RegisterType.Uint16 or RegisterType.Int16 ? registers[0] : Join(order, registers);

        // Each arm to double: their own common type is float, which holds only 24 bits of an integer.
        double raw = kind switch
        {
            RegisterType.Uint16 or RegisterType.Uint32 => (double)bits,
            RegisterType.Int16 => (double)unchecked((short)bits),
            RegisterType.Int32 => (double)unchecked((int)bits),
            _ => (double)BitConverter.UInt32BitsToSingle(bits),
        };
        return double.IsFinite(raw) ? raw : null;
    }

    /// <summary>Puts a value into its registers, rounded to the nearest count.</summary>
    /// <param name="value">The value.</param>
    /// <param name="registers">Takes it; at least <see cref="Registers"/>.</param>
    /// <returns>False, and nothing is put, when the value is no number or beyond what the registers hold.</returns>
    public bool TryEncode(double value, Span<ushort> registers)
    {
        double raw = Raw(value);
        (double least, double most) = Range;
        if (!(raw >= least && raw <= most))
        {
            return false; // also when it is no number
        }

        Put(raw, registers);
        return true;
    }

    /// <summary>Puts a value into its registers; beyond what they hold, the nearest that they do.</summary>
    /// <param name="value">The value; a number.</param>
    /// <param name="registers">Takes it; at least <see cref="Registers"/>.</param>
    public void EncodeClipped(double value, Span<ushort> registers)
    {
        ArgumentOutOfRangeException.ThrowIfEqual(double.IsNaN(value), true, nameof(value));
        (double least, double most) = Range;
        Put(Math.Clamp(Raw(value), least, most), registers);
    }

    // Each to double, as in Decode: a float rounds 2147483647 up.
    private (double Least, double Most) Range => Kind switch
    {
        RegisterType.Uint16 => ((double)ushort.MinValue, (double)ushort.MaxValue),
        RegisterType.Int16 => ((double)short.MinValue, (double)short.MaxValue),
        RegisterType.Uint32 => ((double)uint.MinValue, (double)uint.MaxValue),
        RegisterType.Int32 => ((double)int.MinValue, (double)int.MaxValue),
        _ => ((double)float.MinValue, (double)float.MaxValue),
    };

    private double Raw(double value) =>
        Kind == RegisterType.Float32 ? (value - Offset) / Scale : Math.Round((value - Offset) / Scale);

    private void Put(double raw, Span<ushort> registers)
    {
        uint bits = Kind == RegisterType.Float32 ? BitConverter.SingleToUInt32Bits((float)raw) : unchecked((uint)(long)raw);
        if (Registers == 1)
        {
            registers[0] = unchecked((ushort)bits);
        }
        else
        {
            (ushort high, ushort low) = ((ushort)(bits >> 16), (ushort)(bits & 0xFFFF));
            (registers[0], registers[1]) = Order == WordOrder.HighFirst ? (high, low) : (low, high);
        }
    }

    private static uint Join(WordOrder order, ReadOnlySpan<ushort> registers) => order == WordOrder.HighFirst
        ? ((uint)registers[0] << 16) | registers[1]
        : ((uint)registers[1] << 16) | registers[0];
}

namespace Bench.Devices.Modbus;

/// <summary>Coils and inputs as they travel: eight to a byte, the first in the least bit (Application Protocol V1.1b3, 6.1).</summary>
public static class PackedBits
{
    /// <summary>Bytes that hold a number of bits.</summary>
    public static int Bytes(int bits) => (bits + 7) / 8;

    /// <summary>The bit at an index from 0.</summary>
    public static bool Get(ReadOnlySpan<byte> packed, int index) => ((packed[index / 8] >> (index % 8)) & 1) != 0;

    /// <summary>Packs bits; the bits past the last are 0.</summary>
    /// <returns>Bytes written.</returns>
    public static int Pack(ReadOnlySpan<bool> bits, Span<byte> packed)
    {
        int bytes = Bytes(bits.Length);
        packed[..bytes].Clear();
        for (int i = 0; i < bits.Length; i++)
        {
            if (bits[i])
            {
                packed[i / 8] |= (byte)(1 << (i % 8));
            }
        }

        return bytes;
    }

    /// <summary>Unpacks as many bits as there is room for.</summary>
    public static void Unpack(ReadOnlySpan<byte> packed, Span<bool> bits)
    {
        for (int i = 0; i < bits.Length; i++)
        {
            bits[i] = Get(packed, i);
        }
    }
}

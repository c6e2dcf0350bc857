namespace Bench.Devices.Modbus;

/// <summary>The CRC of RTU frames: start FFFFh, polynomial A001h, low byte sent first (Serial Line V1.02, 6.2.2).</summary>
public static class Crc16
{
    private static readonly ushort[] Table = MakeTable();

    /// <summary>The CRC over bytes; of none, FFFFh.</summary>
    public static ushort Of(ReadOnlySpan<byte> bytes)
    {
        uint crc = 0xFFFF;
        foreach (byte b in bytes)
        {
            crc = (crc >> 8) ^ Table[(crc ^ b) & 0xFF];
        }

        return (ushort)crc;
    }

    private static ushort[] MakeTable()
    {
        ushort[] table = new ushort[256];
        for (uint i = 0; i < 256; i++)
        {
            uint crc = i;
            for (int bit = 0; bit < 8; bit++)
            {
                crc = (crc & 1) != 0 ? (crc >> 1) ^ 0xA001 : crc >> 1;
            }

            table[i] = (ushort)crc;
        }

        return table;
    }
}

using System.Text;
using Bench.Devices.Modbus;
using CsCheck;

namespace Bench.Tests.Devices.Modbus;

public class Crc16Tests
{
    // MODBUS over Serial Line V1.02, 6.2.2, pages 39 to 41: 02 07 gives 1241h.
    [Fact]
    public void Of_TheSpecificationsWorkedFrame_Is1241h() => Assert.Equal(0x1241, Crc16.Of([0x02, 0x07]));

    // Check value of CRC-16/MODBUS, from the Python library crcmod.
    [Fact]
    public void Of_Digits1To9_IsTheCheckValue() => Assert.Equal(0x4B37, Crc16.Of(Encoding.ASCII.GetBytes("123456789")));

    [Fact]
    public void Of_AnyBytes_EqualsTheBitByBitProcedure() =>
        Gen.Byte.Array[0, 256].Sample(bytes => Assert.Equal(BitByBit(bytes), Crc16.Of(bytes)));

    [Fact]
    public void Of_FrameWithOneBitFlipped_NeverPasses() =>
        Gen.Select(Gen.Byte.Array[2, 60], Gen.Int[0, 10_000]).Sample((body, flip) =>
        {
            byte[] frame = new byte[body.Length + 2];
            body.AsSpan(1).CopyTo(frame.AsSpan(1));
            int length = RtuFrame.Close(frame, body[0], body.Length - 1);
            Assert.True(RtuFrame.IsWhole(frame.AsSpan(0, length)));
            int bit = flip % (8 * length);
            frame[bit / 8] ^= (byte)(1 << (bit % 8));
            Assert.False(RtuFrame.IsWhole(frame.AsSpan(0, length)));
        });

    // The procedure of Serial Line V1.02, 6.2.2, steps 1 to 8, as written there.
    private static int BitByBit(byte[] bytes)
    {
        int register = 0xFFFF;
        foreach (byte b in bytes)
        {
            register ^= b;
            for (int shift = 0; shift < 8; shift++)
            {
                bool out1 = (register & 1) == 1;
                register >>= 1;
                if (out1)
                {
                    register ^= 0xA001;
                }
            }
        }

        return register;
    }
}

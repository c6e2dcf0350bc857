using Bench.Devices.Streams;
using Bench.Model.BenchFiles;
using CsCheck;

namespace Bench.Tests.Devices.Streams;

public class FrameLayoutTests
{
    private static readonly StreamDescription Every = new()
    {
        FrameBytes = 20,
        Sync = [0x7E],
        Check = FrameCheckKind.Crc16,
        RateHz = 1000,
        SequenceOffset = 1,
        SequenceBits = 32,
        Fields =
        [
            new StreamField("a", 5, FieldType.Uint8), new StreamField("b", 6, FieldType.Uint16), new StreamField("c", 8, FieldType.Int16),
            new StreamField("d", 10, FieldType.Int32), new StreamField("e", 14, FieldType.Float32),
        ],
    };

    // IEEE 754-2019 binary32: -118.625 is C2ED4000h; the CRC is that of Modbus, whose own tests hold it against the specification.
    [Theory]
    [InlineData(ByteOrder.LowFirst, "7E04030201FF3412FEFFFEFFFFFF0040EDC2")]
    [InlineData(ByteOrder.HighFirst, "7E01020304FF1234FFFEFFFFFFFEC2ED4000")]
    public void Write_KnownNumbers_AreTheKnownBytes(ByteOrder bytes, string expected)
    {
        FrameLayout layout = new(Every with { Bytes = bytes });
        byte[] frame = new byte[20];
        layout.Write(0x01020304, [255, 0x1234, -2, -2, -118.625], frame);
        Assert.Equal(expected, Convert.ToHexString(frame.AsSpan(0, 18)));
        double[] values = new double[5];
        Assert.True(layout.IsWhole(frame));
        Assert.True(layout.TryRead(frame, values));
        Assert.Equal([255, 0x1234, -2, -2, -118.625], values);
        Assert.Equal(0x01020304u, layout.Sequence(frame));
    }

    [Fact]
    public void Write_AnyNumbers_AreReadBack() =>
        Gen.Select(Gen.UInt, Gen.Byte, Gen.UShort, Gen.Short, Gen.Int, Gen.Float.Where(float.IsFinite), Gen.Bool).Sample((sequence, a, b, c, d, e, high) =>
        {
            FrameLayout layout = new(Every with { Bytes = high ? ByteOrder.HighFirst : ByteOrder.LowFirst, Check = FrameCheckKind.Sum8 });
            byte[] frame = new byte[20];
            double[] values = new double[5];
            layout.Write(sequence, [a, b, c, d, e], frame);
            Assert.True(layout.IsWhole(frame) && layout.TryRead(frame, values));
            Assert.Equal([a, b, c, d, e], values);
            Assert.Equal(sequence, layout.Sequence(frame));
        });

    [Fact]
    public void TryRead_FloatThatIsNoFiniteNumber_IsNoReading()
    {
        FrameLayout layout = new(Every);
        byte[] frame = new byte[20];
        layout.Write(0, [0, 0, 0, 0, double.PositiveInfinity], frame);
        Assert.True(layout.IsWhole(frame));
        Assert.False(layout.TryRead(frame, new double[5]));
    }

    [Fact]
    public void IsWhole_AnyBitTurned_IsNot()
    {
        FrameLayout layout = new(Every);
        byte[] frame = new byte[20];
        layout.Write(7, [1, 2, 3, 4, 5], frame);
        for (int bit = 0; bit < 160; bit++)
        {
            frame[bit / 8] ^= (byte)(1 << (bit % 8));
            Assert.False(layout.IsWhole(frame));
            frame[bit / 8] ^= (byte)(1 << (bit % 8));
        }
    }
}

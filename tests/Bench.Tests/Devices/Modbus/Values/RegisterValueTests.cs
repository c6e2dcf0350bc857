using System.Buffers.Binary;
using Bench.Devices.Modbus.Values;
using CsCheck;

namespace Bench.Tests.Devices.Modbus.Values;

public class RegisterValueTests
{
    private static readonly Gen<WordOrder> Orders = Gen.OneOf(Gen.Const(WordOrder.BigEndian), Gen.Const(WordOrder.WordSwapped));

    // IEEE 754-2019 binary32: 1.0 is 3F800000h, -118.625 is C2ED4000h (sign 1, exponent 133, fraction 1.10110101 worked by hand).
    [Theory]
    [InlineData(ValueKind.Unsigned16, WordOrder.BigEndian, new[] { 0xFFFF }, 65535.0)]
    [InlineData(ValueKind.Signed16, WordOrder.BigEndian, new[] { 0xFFFF }, -1.0)]
    [InlineData(ValueKind.Unsigned32, WordOrder.BigEndian, new[] { 0x0001, 0x0002 }, 65538.0)]
    [InlineData(ValueKind.Unsigned32, WordOrder.WordSwapped, new[] { 0x0002, 0x0001 }, 65538.0)]
    [InlineData(ValueKind.Signed32, WordOrder.BigEndian, new[] { 0xFFFF, 0xFFFE }, -2.0)]
    [InlineData(ValueKind.Signed32, WordOrder.WordSwapped, new[] { 0xFFFE, 0xFFFF }, -2.0)]
    [InlineData(ValueKind.Float32, WordOrder.BigEndian, new[] { 0x3F80, 0x0000 }, 1.0)]
    [InlineData(ValueKind.Float32, WordOrder.WordSwapped, new[] { 0x4000, 0xC2ED }, -118.625)]
    public void Decode_KnownBits_IsTheValue(ValueKind kind, WordOrder order, int[] registers, double expected)
    {
        ushort[] words = [.. registers.Select(r => (ushort)r)];
        Assert.Equal(expected, new RegisterValue(kind, order).Decode(words));
        ushort[] back = new ushort[words.Length];
        Assert.True(new RegisterValue(kind, order).TryEncode(expected, back));
        Assert.Equal(words, back);
    }

    [Fact]
    public void Decode_AnyTwoRegisters_IsWhatTheRuntimeReads() =>
        Gen.Select(Gen.UShort, Gen.UShort, Orders).Sample((high, low, order) =>
        {
            byte[] bytes = new byte[4];
            BinaryPrimitives.WriteUInt16BigEndian(bytes, high);
            BinaryPrimitives.WriteUInt16BigEndian(bytes.AsSpan(2), low);
            ushort[] words = order == WordOrder.BigEndian ? [high, low] : [low, high];
            float f = BinaryPrimitives.ReadSingleBigEndian(bytes);
            Assert.Equal(BinaryPrimitives.ReadUInt32BigEndian(bytes), new RegisterValue(ValueKind.Unsigned32, order).Decode(words));
            Assert.Equal(BinaryPrimitives.ReadInt32BigEndian(bytes), new RegisterValue(ValueKind.Signed32, order).Decode(words));
            Assert.Equal(float.IsFinite(f) ? f : null, new RegisterValue(ValueKind.Float32, order).Decode(words));
        });

    [Fact]
    public void TryEncode_AnyValueInRange_DecodesToWithinHalfACount() =>
        Gen.Select(Gen.Int[0, 3], Gen.Double[-1, 1], Gen.Double[0.001, 10], Gen.Double[-100, 100], Orders)
            .Sample((kind, share, scale, offset, order) =>
            {
                RegisterValue value = new((ValueKind)kind, order, scale, offset);
                double most = value.Registers == 1 ? 32767 : 2147483647.0;
                bool unsigned = (ValueKind)kind is ValueKind.Unsigned16 or ValueKind.Unsigned32;
                double wanted = ((unsigned ? Math.Abs(share) : share) * most * scale) + offset;
                ushort[] words = new ushort[2];
                Assert.True(value.TryEncode(wanted, words));
                Assert.Equal(wanted, value.Decode(words)!.Value, (0.5 * scale) + (1e-12 * Math.Abs(wanted)));
            });

    [Theory]
    [InlineData(ValueKind.Unsigned16, 65536)]
    [InlineData(ValueKind.Unsigned16, -1)]
    [InlineData(ValueKind.Signed16, 32768)]
    [InlineData(ValueKind.Signed32, 2147483648.0)]
    [InlineData(ValueKind.Float32, 1e39)]
    [InlineData(ValueKind.Signed32, double.NaN)]
    [InlineData(ValueKind.Float32, double.NaN)]
    public void TryEncode_WhatDoesNotFit_IsRefused(ValueKind kind, double value)
    {
        ushort[] words = [7, 7];
        Assert.False(new RegisterValue(kind).TryEncode(value, words));
        Assert.Equal([7, 7], words);
    }

    [Fact]
    public void Decode_FloatThatIsNoNumber_IsNoValue() =>
        Assert.Null(new RegisterValue(ValueKind.Float32).Decode([0x7FC0, 0x0000]));

    [Theory]
    [InlineData(0, 0)]
    [InlineData(double.NaN, 0)]
    [InlineData(1, double.PositiveInfinity)]
    public void New_ScaleOrOffsetWithoutMeaning_IsRefused(double scale, double offset) =>
        Assert.Throws<ArgumentOutOfRangeException>(() => new RegisterValue(ValueKind.Signed16, Scale: scale, Offset: offset));
}

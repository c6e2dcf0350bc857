using System.Buffers.Binary;
using Bench.Devices.Modbus.Values;
using Bench.Model.BenchFiles;
using CsCheck;

namespace Bench.Tests.Devices.Modbus.Values;

public class RegisterValueTests
{
    private static readonly Gen<WordOrder> Orders = Gen.OneOf(Gen.Const(WordOrder.HighFirst), Gen.Const(WordOrder.LowFirst));

    // IEEE 754-2019 binary32: 1.0 is 3F800000h, -118.625 is C2ED4000h (sign 1, exponent 133, fraction 1.10110101 worked by hand).
    [Theory]
    [InlineData(RegisterType.Uint16, WordOrder.HighFirst, new[] { 0xFFFF }, 65535.0)]
    [InlineData(RegisterType.Int16, WordOrder.HighFirst, new[] { 0xFFFF }, -1.0)]
    [InlineData(RegisterType.Uint32, WordOrder.HighFirst, new[] { 0x0001, 0x0002 }, 65538.0)]
    [InlineData(RegisterType.Uint32, WordOrder.LowFirst, new[] { 0x0002, 0x0001 }, 65538.0)]
    [InlineData(RegisterType.Int32, WordOrder.HighFirst, new[] { 0xFFFF, 0xFFFE }, -2.0)]
    [InlineData(RegisterType.Int32, WordOrder.LowFirst, new[] { 0xFFFE, 0xFFFF }, -2.0)]
    [InlineData(RegisterType.Float32, WordOrder.HighFirst, new[] { 0x3F80, 0x0000 }, 1.0)]
    [InlineData(RegisterType.Float32, WordOrder.LowFirst, new[] { 0x4000, 0xC2ED }, -118.625)]
    public void Decode_KnownBits_IsTheValue(RegisterType kind, WordOrder order, int[] registers, double expected)
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
            ushort[] words = order == WordOrder.HighFirst ? [high, low] : [low, high];
            float f = BinaryPrimitives.ReadSingleBigEndian(bytes);
            Assert.Equal(BinaryPrimitives.ReadUInt32BigEndian(bytes), new RegisterValue(RegisterType.Uint32, order).Decode(words));
            Assert.Equal(BinaryPrimitives.ReadInt32BigEndian(bytes), new RegisterValue(RegisterType.Int32, order).Decode(words));
            Assert.Equal(float.IsFinite(f) ? f : null, new RegisterValue(RegisterType.Float32, order).Decode(words));
        });

    [Fact]
    public void TryEncode_AnyValueInRange_DecodesToWithinHalfACount() =>
        Gen.Select(Gen.Int[0, 3], Gen.Double[-1, 1], Gen.Double[0.001, 10], Gen.Double[-100, 100], Orders)
            .Sample((kind, share, scale, offset, order) =>
            {
                RegisterValue value = new((RegisterType)kind, order, scale, offset);
                double most = value.Registers == 1 ? 32767 : 2147483647.0;
                bool unsigned = (RegisterType)kind is RegisterType.Uint16 or RegisterType.Uint32;
                double wanted = ((unsigned ? Math.Abs(share) : share) * most * scale) + offset;
                ushort[] words = new ushort[2];
                Assert.True(value.TryEncode(wanted, words));
                Assert.Equal(wanted, value.Decode(words)!.Value, (0.5 * scale) + (1e-12 * Math.Abs(wanted)));
            });

    [Theory]
    [InlineData(RegisterType.Uint16, 65536)]
    [InlineData(RegisterType.Uint16, -1)]
    [InlineData(RegisterType.Int16, 32768)]
    [InlineData(RegisterType.Int32, 2147483648.0)]
    [InlineData(RegisterType.Float32, 1e39)]
    [InlineData(RegisterType.Int32, double.NaN)]
    [InlineData(RegisterType.Float32, double.NaN)]
    public void TryEncode_WhatDoesNotFit_IsRefused(RegisterType kind, double value)
    {
        ushort[] words = [7, 7];
        Assert.False(new RegisterValue(kind).TryEncode(value, words));
        Assert.Equal([7, 7], words);
    }

    [Fact]
    public void Decode_FloatThatIsNoNumber_IsNoValue() =>
        Assert.Null(new RegisterValue(RegisterType.Float32).Decode([0x7FC0, 0x0000]));

    [Theory]
    [InlineData(0, 0)]
    [InlineData(double.NaN, 0)]
    [InlineData(1, double.PositiveInfinity)]
    public void New_ScaleOrOffsetWithoutMeaning_IsRefused(double scale, double offset) =>
        Assert.Throws<ArgumentOutOfRangeException>(() => new RegisterValue(RegisterType.Int16, Scale: scale, Offset: offset));
}

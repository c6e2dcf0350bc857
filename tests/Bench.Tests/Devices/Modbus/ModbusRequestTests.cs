using Bench.Devices.Modbus;
using CsCheck;

namespace Bench.Tests.Devices.Modbus;

public class ModbusRequestTests
{
    [Theory]
    [MemberData(nameof(GoldenFrame.All), MemberType = typeof(GoldenFrame))]
    public void Decode_ExampleOfTheSpecification_EncodesBackToTheSameBytes(GoldenFrame example)
    {
        Assert.Equal(ExceptionCode.None, ModbusRequest.Decode(example.RequestPdu, out ModbusRequest request));
        byte[] frame = new byte[ModbusLimits.MostRtuBytes];
        int length = RtuFrame.Close(frame, 1, request.Encode(frame.AsSpan(1)));
        Assert.Equal(example.RtuRequest, frame[..length]);
        Assert.Equal(length, RtuFrame.RequestLength(frame));
    }

    [Theory]
    [MemberData(nameof(GoldenFrame.All), MemberType = typeof(GoldenFrame))]
    public void AnswerLength_ExampleOfTheSpecification_IsThatOfItsAnswer(GoldenFrame example)
    {
        ModbusRequest.Decode(example.RequestPdu, out ModbusRequest request);
        if (request.Function == FunctionCode.EncapsulatedInterface)
        {
            Assert.Equal(ModbusRequest.ToldByAnswer, request.AnswerLength);
        }
        else if ((example.AnswerPdu[0] & 0x80) == 0)
        {
            Assert.Equal(example.AnswerPdu.Length, request.AnswerLength);
        }
    }

    [Fact]
    public void Encode_AnyWriteOfRegisters_DecodesToTheSame() =>
        Gen.Select(Gen.UShort, Gen.Byte.Array[2, 246]).Sample((address, data) =>
        {
            byte[] even = data[..(data.Length & ~1)];
            ModbusRequest request = new()
            {
                Function = FunctionCode.WriteRegisters,
                Address = address,
                Quantity = even.Length / 2,
                Data = even,
            };
            byte[] pdu = new byte[ModbusLimits.MostPduBytes];
            int length = request.Encode(pdu);
            Assert.Equal(ExceptionCode.None, ModbusRequest.Decode(pdu.AsSpan(0, length), out ModbusRequest back));
            Assert.Equal(address, back.Address);
            Assert.Equal(request.Quantity, back.Quantity);
            Assert.Equal(even, back.Data.ToArray());
        });

    [Fact]
    public void Encode_AnyReadWrite_DecodesToTheSame() =>
        Gen.Select(Gen.UShort, Gen.Int[1, 125], Gen.UShort, Gen.Int[1, 121]).Sample((from, read, to, written) =>
        {
            ModbusRequest request = new()
            {
                Function = FunctionCode.ReadWriteRegisters,
                Address = from,
                Quantity = read,
                WriteAddress = to,
                WriteQuantity = written,
                Data = new byte[2 * written],
            };
            byte[] pdu = new byte[ModbusLimits.MostPduBytes];
            int length = request.Encode(pdu);
            Assert.Equal(ExceptionCode.None, ModbusRequest.Decode(pdu.AsSpan(0, length), out ModbusRequest back));
            Assert.Equal((from, read, to, written), ((ushort)back.Address, back.Quantity, (ushort)back.WriteAddress, back.WriteQuantity));
        });

    // Limits of Application Protocol V1.1b3, section 6: the greatest quantity passes, the next does not.
    [Theory]
    [InlineData(FunctionCode.ReadCoils, 2000)]
    [InlineData(FunctionCode.ReadDiscreteInputs, 2000)]
    [InlineData(FunctionCode.ReadHoldingRegisters, 125)]
    [InlineData(FunctionCode.ReadInputRegisters, 125)]
    public void Decode_QuantityAtTheLimit_PassesAndOneMoreIsRefused(FunctionCode function, int most)
    {
        Assert.Equal(ExceptionCode.None, Decode(function, most));
        Assert.Equal(ExceptionCode.IllegalDataValue, Decode(function, most + 1));
        Assert.Equal(ExceptionCode.IllegalDataValue, Decode(function, 0));
    }

    [Theory]
    [InlineData("05 00 AC 12 34")] // 6.5: only 0000 and FF00
    [InlineData("0F 00 13 00 0A 01 CD")] // 6.11: byte count of ten coils is 2
    [InlineData("10 00 01 00 02 04 00 0A 01")] // a byte short
    [InlineData("03 00 6B 00")]
    [InlineData("08 00 00 A5")] // 6.8: whole words
    [InlineData("2B 0E 05 00")] // 6.21: access codes 01 to 04
    [InlineData("2B 0E 01")]
    public void Decode_ValueOrLengthNotAllowed_IsException03(string pdu) =>
        Assert.Equal(
            ExceptionCode.IllegalDataValue,
            ModbusRequest.Decode(Convert.FromHexString(pdu.Replace(" ", "", StringComparison.Ordinal)), out _));

    // Figures 18 and 29: a sub-function or interface type that is not there is answered as a function that is not there.
    [Theory]
    [InlineData("08 00 01 00 00")]
    [InlineData("2B 0D 00 00")]
    [InlineData("2B")]
    public void Decode_SubfunctionNotSpoken_IsException01(string pdu) =>
        Assert.Equal(
            ExceptionCode.IllegalFunction,
            ModbusRequest.Decode(Convert.FromHexString(pdu.Replace(" ", "", StringComparison.Ordinal)), out _));

    [Fact]
    public void Decode_AnyBytes_NeverThrows() =>
        Gen.Byte.Array[0, 300].Sample(bytes => { ModbusRequest.Decode(bytes, out _); });

    private static ExceptionCode Decode(FunctionCode function, int quantity)
    {
        byte[] pdu = new byte[5];
        new ModbusRequest { Function = function, Quantity = quantity }.Encode(pdu);
        return ModbusRequest.Decode(pdu, out _);
    }
}

using Bench.Devices.Modbus;
using Bench.Devices.Modbus.Server;
using Bench.Model.BenchFiles;

namespace Bench.Tests.Devices.Modbus.Server;

public class RegisterMapTests
{
    private readonly Dictionary<(RegisterTable, int), int> _memory = [];

    [Fact]
    public void Answer_ReadExamplesOfTheSpecification_AreByteForByte()
    {
        RegisterMap map = new();
        Bits(map, RegisterTable.Coil, 0x13, 19, [0xCD, 0x6B, 0x05]);
        Bits(map, RegisterTable.DiscreteInput, 0xC4, 22, [0xAC, 0xDB, 0x35]);
        Words(map, RegisterTable.HoldingRegister, 0x6B, [0x022B, 0x0000, 0x0064]);
        Words(map, RegisterTable.InputRegister, 8, [10]);
        AssertAnswers(map, "read-coils-20-38");
        AssertAnswers(map, "read-inputs-197-218");
        AssertAnswers(map, "read-registers-108-110");
        AssertAnswers(map, "read-input-register-9");
        AssertAnswers(map, "exception-address");
    }

    [Fact]
    public void Answer_WriteExamplesOfTheSpecification_AreByteForByteAndWritten()
    {
        RegisterMap map = new();
        Words(map, RegisterTable.HoldingRegister, 1, [0, 0]);
        Words(map, RegisterTable.HoldingRegister, 4, [0x12]);
        Bits(map, RegisterTable.Coil, 0x13, 10, [0, 0]);
        Bits(map, RegisterTable.Coil, 0xAC, 1, [0]);
        AssertAnswers(map, "write-coil-173-on");
        AssertAnswers(map, "write-register-2");
        Assert.Equal(3, _memory[(RegisterTable.HoldingRegister, 1)]);
        AssertAnswers(map, "write-coils-20-29");
        AssertAnswers(map, "write-registers-2-3");
        AssertAnswers(map, "mask-write-register-5");
        Assert.Equal(1, _memory[(RegisterTable.Coil, 0xAC)]);
        Assert.Equal([1, 0, 1, 1, 0, 0, 1, 1, 1, 0], Enumerable.Range(0x13, 10).Select(a => _memory[(RegisterTable.Coil, a)]));
        Assert.Equal([0x0A, 0x0102], Enumerable.Range(1, 2).Select(a => _memory[(RegisterTable.HoldingRegister, a)]));
        Assert.Equal(0x17, _memory[(RegisterTable.HoldingRegister, 4)]); // 6.16: (12 AND F2) OR (25 AND NOT F2) = 17
    }

    [Fact]
    public void Answer_ReadWriteExample_WritesBeforeItReads()
    {
        RegisterMap map = new();
        Words(map, RegisterTable.HoldingRegister, 3, [0x00FE, 0x0ACD, 1, 3, 13, 0x00FF]);
        Words(map, RegisterTable.HoldingRegister, 0x0E, [0, 0, 0]);
        AssertAnswers(map, "read-write-registers");
        Assert.Equal([0xFF, 0xFF, 0xFF], Enumerable.Range(0x0E, 3).Select(a => _memory[(RegisterTable.HoldingRegister, a)]));
    }

    [Fact]
    public void Answer_ReturnQueryDataExample_IsTheEcho() => AssertAnswers(new RegisterMap(), "return-query-data");

    [Fact]
    public void Answer_IdentificationExample_IsByteForByteButForTheConformityLevel()
    {
        GoldenFrame golden = GoldenFrame.Named("read-device-identification");
        byte[] answer = new byte[ModbusLimits.MostPduBytes];
        int length = Identified("Company identification", "Product code XX", "V2.11").Answer(golden.RequestPdu, answer);
        Assert.Equal(0x81, answer[3]); // one object at a time can be asked for, too, which the example's device does not offer
        answer[3] = 0x01;
        Assert.Equal(golden.AnswerPdu, answer[..length]);
    }

    // 6.21: an unknown object restarts a stream, and is refused when asked for alone; a category not there is answered with basic.
    [Theory]
    [InlineData(1, 9, "2B0E0181000003", 0x2B)]
    [InlineData(3, 0, "2B0E0381000003", 0x2B)]
    [InlineData(4, 1, "2B0E0481000001", 0x2B)]
    [InlineData(4, 9, "AB02", 0xAB)]
    public void Answer_IdentificationByAccessCode_BeginsAsTheSpecificationSays(byte access, byte first, string begins, byte function)
    {
        byte[] answer = new byte[ModbusLimits.MostPduBytes];
        Identified("A", "B", "C").Answer([0x2B, 0x0E, access, first], answer);
        Assert.Equal(function, answer[0]);
        Assert.Equal(begins, Convert.ToHexString(answer.AsSpan(0, begins.Length / 2)));
    }

    [Theory]
    [InlineData(ExceptionCode.Acknowledge)]
    [InlineData(ExceptionCode.ServerDeviceBusy)]
    [InlineData(ExceptionCode.MemoryParityError)]
    [InlineData(ExceptionCode.GatewayPathUnavailable)]
    [InlineData(ExceptionCode.GatewayTargetFailedToRespond)]
    public void Answer_HandlerRefuses_IsThatException(ExceptionCode code)
    {
        RegisterMap map = new RegisterMap().OnRead(RegisterTable.Coil, 0, () => throw new DeviceRefusalException(code));
        byte[] answer = new byte[ModbusLimits.MostPduBytes];
        Assert.Equal(2, map.Answer([1, 0, 0, 0, 1], answer));
        Assert.Equal([0x81, (byte)code], answer[..2]);
    }

    // Section 7, page 48: a device with 100 registers answers 4 from 96, and refuses 5 from 96 with 02.
    [Theory]
    [InlineData(96, 4, ExceptionCode.None)]
    [InlineData(96, 5, ExceptionCode.IllegalDataAddress)]
    // Figure 11 and its like: the quantity (03) is looked at before the address (02).
    [InlineData(500, 0, ExceptionCode.IllegalDataValue)]
    [InlineData(500, 126, ExceptionCode.IllegalDataValue)]
    [InlineData(65535, 2, ExceptionCode.IllegalDataAddress)]
    public void Answer_DeviceWith100Registers_ChecksQuantityThenAddress(int first, int quantity, ExceptionCode expected)
    {
        RegisterMap map = new();
        Words(map, RegisterTable.HoldingRegister, 0, new int[100]);
        Assert.Equal(expected, Ask(map, new ModbusRequest { Function = FunctionCode.ReadHoldingRegisters, Address = first, Quantity = quantity }));
    }

    [Fact]
    public void Answer_UnknownFunctionOfAnyShape_IsException01()
    {
        byte[] answer = new byte[ModbusLimits.MostPduBytes];
        int length = new RegisterMap().Answer([0x2B, 0x0E], answer);
        Assert.Equal([0xAB, 0x01], answer[..length]);
    }

    [Fact]
    public void Answer_HandlerFails_IsException04()
    {
        RegisterMap map = new RegisterMap().OnRead(RegisterTable.InputRegister, 0, () => throw new InvalidOperationException("sensor open"));
        Assert.Equal(
            ExceptionCode.ServerDeviceFailure,
            Ask(map, new ModbusRequest { Function = FunctionCode.ReadInputRegisters, Address = 0, Quantity = 1 }));
    }

    [Fact]
    public void Answer_WritePartlyOutsideTheMap_WritesNothing()
    {
        RegisterMap map = new();
        Words(map, RegisterTable.HoldingRegister, 0, [7, 7]);
        Assert.Equal(
            ExceptionCode.IllegalDataAddress,
            Ask(map, new ModbusRequest { Function = FunctionCode.WriteRegisters, Address = 1, Quantity = 2, Data = new byte[4] }));
        Assert.Equal(7, _memory[(RegisterTable.HoldingRegister, 1)]);
    }

    [Fact]
    public void OnWrite_ReadOnlyTable_IsRefused() =>
        Assert.Throws<ArgumentException>(() => new RegisterMap().OnWrite(RegisterTable.InputRegister, 0, _ => { }));

    private static ExceptionCode Ask(RegisterMap map, in ModbusRequest request)
    {
        byte[] pdu = new byte[ModbusLimits.MostPduBytes];
        byte[] answer = new byte[ModbusLimits.MostPduBytes];
        map.Answer(pdu.AsSpan(0, request.Encode(pdu)), answer);
        return (answer[0] & 0x80) != 0 ? (ExceptionCode)answer[1] : ExceptionCode.None;
    }

    private static void AssertAnswers(RegisterMap map, string example)
    {
        GoldenFrame golden = GoldenFrame.Named(example);
        byte[] response = new byte[ModbusLimits.MostRtuBytes];
        ModbusServer server = new(new Dictionary<int, RegisterMap> { [1] = map });
        int length = server.RespondRtu(golden.RtuRequest, response);
        Assert.Equal(golden.RtuAnswer, response[..length]);
    }

    private void Bits(RegisterMap map, RegisterTable table, int first, int count, byte[] packed)
    {
        for (int i = 0; i < count; i++)
        {
            Place(map, table, first + i, PackedBits.Get(packed, i) ? 1 : 0);
        }
    }

    private void Words(RegisterMap map, RegisterTable table, int first, int[] values)
    {
        for (int i = 0; i < values.Length; i++)
        {
            Place(map, table, first + i, values[i]);
        }
    }

    private void Place(RegisterMap map, RegisterTable table, int address, int value)
    {
        _memory[(table, address)] = value;
        map.OnRead(table, address, () => _memory[(table, address)]);
        if (table is RegisterTable.Coil or RegisterTable.HoldingRegister)
        {
            map.OnWrite(table, address, v => _memory[(table, address)] = v);
        }
    }

    private static RegisterMap Identified(string vendor, string product, string revision) =>
        new() { Identity = new DeviceIdentity(vendor, product, revision) };
}

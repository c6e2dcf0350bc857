using Bench.Devices.Modbus;
using Bench.Devices.Modbus.Server;
using Bench.Model.BenchFiles;
using CsCheck;

namespace Bench.Tests.Devices.Modbus.Server;

public class ModbusServerTests
{
    private readonly byte[] _response = new byte[ModbusLimits.MostTcpBytes];
    private int _written;

    [Fact]
    public void RespondRtu_ForeignAddress_IsSilent() => Assert.Equal(0, Server().RespondRtu(Frame(9, 1, 1), _response));

    [Fact]
    public void RespondRtu_Broadcast_IsObeyedAndSilent()
    {
        Assert.Equal(0, Server().RespondRtu(Frame(ModbusLimits.BroadcastAddress, 1, 42), _response));
        Assert.Equal(42, _written);
    }

    [Fact]
    public void RespondRtu_BadCrc_IsSilentAndNotObeyed()
    {
        byte[] frame = Frame(1, 1, 42);
        frame[5] ^= 1;
        Assert.Equal(0, Server().RespondRtu(frame, _response));
        Assert.Equal(0, _written);
    }

    [Fact]
    public void RespondTcp_AnyTransaction_AnswersWithIt() =>
        Gen.UShort.Sample(transaction =>
        {
            byte[] frame = new byte[12];
            byte[] response = new byte[ModbusLimits.MostTcpBytes];
            new ModbusRequest { Function = FunctionCode.WriteRegister, Address = 1, Quantity = 1, Data = new byte[2] }.Encode(frame.AsSpan(7));
            TcpFrame.Close(frame, transaction, 1, 5);
            int length = Server().RespondTcp(frame, response);
            Assert.Equal(frame, response[..length]);
        });

    [Theory]
    [InlineData(0)]
    [InlineData(255)]
    public void RespondTcp_LoneDeviceReachedDirectly_Answers(int unit)
    {
        byte[] frame = new byte[12];
        new ModbusRequest { Function = FunctionCode.WriteRegister, Address = 1, Quantity = 1, Data = new byte[2] }.Encode(frame.AsSpan(7));
        TcpFrame.Close(frame, 5, unit, 5);
        Assert.Equal(12, Server().RespondTcp(frame, _response));
    }

    private static byte[] Frame(int address, int register, ushort value)
    {
        byte[] frame = new byte[8];
        byte[] data = [(byte)(value >> 8), (byte)(value & 0xFF)];
        new ModbusRequest { Function = FunctionCode.WriteRegister, Address = register, Quantity = 1, Data = data }.Encode(frame.AsSpan(1));
        RtuFrame.Close(frame, address, 5);
        return frame;
    }

    private ModbusServer Server() => new(new Dictionary<int, RegisterMap>
    {
        [1] = new RegisterMap().OnWrite(RegisterTable.HoldingRegister, 1, v => _written = v),
    });
}

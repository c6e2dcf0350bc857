using Bench.Devices.Modbus;
using Bench.Devices.Modbus.Client;
using Bench.Devices.Modbus.Server;
using Bench.Model.BenchFiles;
using Bench.Model.Instruments;
using CsCheck;

namespace Bench.Tests.Devices.Modbus.Client;

public class ModbusClientTests
{
    private static readonly TimeSpan Timeout = TimeSpan.FromMilliseconds(40);
    private static readonly TimeSpan Character = TimeSpan.FromSeconds(10.0 / 115200);

    private readonly SteppedTime _time = new();
    private readonly int[] _registers = new int[200];
    private readonly int[] _coils = new int[64];
    private readonly ModbusServer _server;

    public ModbusClientTests()
    {
        RegisterMap map = new() { Identity = new DeviceIdentity(new string('v', 200), "P-1", "1.0") };
        for (int i = 0; i < _registers.Length; i++)
        {
            int address = i;
            map.OnRead(RegisterTable.HoldingRegister, address, () => _registers[address]);
            map.OnWrite(RegisterTable.HoldingRegister, address, v => _registers[address] = v);
            map.OnRead(RegisterTable.InputRegister, address, () => 1000 + address);
        }

        for (int i = 0; i < _coils.Length; i++)
        {
            int address = i;
            map.OnRead(RegisterTable.Coil, address, () => _coils[address]);
            map.OnWrite(RegisterTable.Coil, address, v => _coils[address] = v);
            map.OnRead(RegisterTable.DiscreteInput, address, () => address % 3 == 0 ? 1 : 0);
        }

        _server = new ModbusServer(new Dictionary<int, RegisterMap> { [5] = map });
    }

    [Theory]
    [InlineData(LinkProtocol.ModbusRtu)]
    [InlineData(LinkProtocol.ModbusTcp)]
    public void EveryFunction_AgainstTheServer_DoesWhatItSays(LinkProtocol protocol) => _time.Run(async () =>
    {
        await using ModbusClient client = Client(protocol, out _);
        CancellationToken none = CancellationToken.None;
        Assert.True((await client.WriteRegisterAsync(5, 1, 0xABCD, Timeout, none)).Ok);
        Assert.True((await client.WriteRegistersAsync(5, 2, new ushort[] { 1, 65535 }, Timeout, none)).Ok);
        Assert.True((await client.MaskWriteRegisterAsync(5, 3, 0x00FF, 0x1200, Timeout, none)).Ok);
        ushort[] words = new ushort[3];
        Assert.True((await client.ReadRegistersAsync(5, RegisterTable.HoldingRegister, 1, words, Timeout, none)).Ok);
        Assert.Equal([0xABCD, 1, 0x12FF], words);
        Assert.True((await client.ReadWriteRegistersAsync(5, 10, new ushort[] { 77 }, 9, words, Timeout, none)).Ok);
        Assert.Equal([0, 77, 0], words);
        Assert.True((await client.ReadRegistersAsync(5, RegisterTable.InputRegister, 7, words, Timeout, none)).Ok);
        Assert.Equal([1007, 1008, 1009], words);
        Assert.True((await client.WriteCoilAsync(5, 8, true, Timeout, none)).Ok);
        Assert.True((await client.WriteCoilsAsync(5, 9, new[] { false, true }, Timeout, none)).Ok);
        bool[] bits = new bool[4];
        Assert.True((await client.ReadBitsAsync(5, RegisterTable.Coil, 8, bits, Timeout, none)).Ok);
        Assert.Equal([true, false, true, false], bits);
        Assert.True((await client.ReadBitsAsync(5, RegisterTable.DiscreteInput, 3, bits, Timeout, none)).Ok);
        Assert.Equal([true, false, false, true], bits);
    });

    [Theory]
    [InlineData(LinkProtocol.ModbusRtu)]
    [InlineData(LinkProtocol.ModbusTcp)]
    public void ReturnQueryDataAndIdentity_AgainstTheServer_AreRight(LinkProtocol protocol) => _time.Run(async () =>
    {
        await using ModbusClient client = Client(protocol, out _);
        Assert.True((await client.ReturnQueryDataAsync(5, 0xA537, Timeout, CancellationToken.None)).Ok);
        (ModbusResult result, DeviceIdentity? identity) = await client.ReadIdentityAsync(5, Timeout, CancellationToken.None);
        Assert.True(result.Ok);
        Assert.Equal(new DeviceIdentity(new string('v', 200), "P-1", "1.0"), identity);
    });

    [Fact]
    public void ReadIdentity_TooLongForOneAnswer_IsGatheredFromTwo() => _time.Run(async () =>
    {
        DeviceIdentity longest = new(new string('v', DeviceIdentity.MostCharacters), new string('p', 200), "1.0");
        ModbusServer server = new(new Dictionary<int, RegisterMap> { [5] = new() { Identity = longest } });
        await using ModbusClient client = Client(LinkProtocol.ModbusRtu, out ScriptedLink link);
        link.Far = request =>
        {
            byte[] response = new byte[ModbusLimits.MostRtuBytes];
            return [(TimeSpan.FromMilliseconds(2), response[..server.RespondRtu(request, response)])];
        };
        Assert.Equal(longest, (await client.ReadIdentityAsync(5, Timeout, CancellationToken.None)).Identity);
        Assert.Equal(2, link.Sent.Count);
    });

    [Fact]
    public void ReadIdentity_DeviceNamesTheSameObjectForEver_Ends() => _time.Run(async () =>
    {
        await using ModbusClient client = Client(LinkProtocol.ModbusRtu, out ScriptedLink link);
        byte[] endless = [5, 0x2B, 0x0E, 1, 1, 0xFF, 0, 0, 0, 0];
        RtuFrame.Close(endless, 5, 7);
        link.Far = _ => [(TimeSpan.FromMilliseconds(2), endless)];
        Assert.Equal(new DeviceIdentity("", "", ""), (await client.ReadIdentityAsync(5, Timeout, CancellationToken.None)).Identity);
        Assert.Single(link.Sent);
    });

    [Fact]
    public void Read_EveryExceptionOfTheSpecification_IsSaid() => _time.Run(async () =>
    {
        await using ModbusClient client = Client(LinkProtocol.ModbusRtu, out ScriptedLink link);
        foreach (ExceptionCode code in Enum.GetValues<ExceptionCode>().Where(c => c != ExceptionCode.None))
        {
            byte[] refusal = [5, 0x84, (byte)code, 0, 0];
            RtuFrame.Close(refusal, 5, 2);
            link.Far = _ => [(TimeSpan.FromMilliseconds(2), refusal)];
            ModbusResult result = await client.ReadRegistersAsync(5, RegisterTable.InputRegister, 3, new ushort[1], Timeout, CancellationToken.None);
            Assert.Equal((DeviceFaultKind.Refused, code), (result.Fault!.Value, result.Exception));
        }
    });

    // RTU over TCP, as plain gateways speak it: RTU frames on a channel whose characters take no time, cut anywhere.
    [Fact]
    public void Read_RtuOverTcpInPieces_IsPutTogether() => _time.Run(async () =>
    {
        ScriptedLink link = new(_time);
        await using ModbusClient client = new(link, LinkProtocol.ModbusRtu, _time);
        link.Far = request =>
        {
            byte[] answer = Respond(request);
            return [(TimeSpan.FromMilliseconds(2), answer[..3]), (TimeSpan.FromMilliseconds(9), answer[3..])];
        };
        ushort[] words = new ushort[2];
        for (int i = 0; i < 3; i++)
        {
            Assert.True((await client.ReadRegistersAsync(5, RegisterTable.InputRegister, i, words, Timeout, CancellationToken.None)).Ok);
            Assert.Equal([1000 + i, 1001 + i], words.Select(w => (int)w));
        }
    });

    [Fact]
    public void Read_EndlessNoise_EndsAtTheTimeout() => _time.Run(async () =>
    {
        await using ModbusClient client = Client(LinkProtocol.ModbusRtu, out ScriptedLink link);
        link.Far = _ => Enumerable.Range(0, 400).Select(i => (TimeSpan.FromMilliseconds(0.25 * i), new byte[] { 5, 4, 255 }));
        ModbusResult result = await client.ReadRegistersAsync(5, RegisterTable.InputRegister, 3, new ushort[1], Timeout, CancellationToken.None);
        Assert.Equal(DeviceFaultKind.Garbled, result.Fault);
        Assert.InRange(_time.Now.TotalMilliseconds, 40, 45);
    });

    // After 16 answers of 3 ms, one that is delivered 10 ms late was still measured where the others were.
    [Fact]
    public void Read_AnswerDeliveredLate_IsPutWhereTheDeviceUsuallyActs() => _time.Run(async () =>
    {
        await using ModbusClient client = Client(LinkProtocol.ModbusRtu, out ScriptedLink link);
        double delayMs = 3;
        link.Far = request => [((15 * Character) + TimeSpan.FromMilliseconds(delayMs), Respond(request))];
        ushort[] word = new ushort[1];
        for (int i = 0; i < 20; i++)
        {
            await client.ReadRegistersAsync(5, RegisterTable.InputRegister, 3, word, Timeout, CancellationToken.None);
        }

        Assert.Equal(3, client.TurnaroundOf(5).Median.TotalMilliseconds, 0.01);
        Assert.Equal(20, client.TurnaroundOf(5).Answers);
        delayMs = 13;
        ModbusResult result = await client.ReadRegistersAsync(5, RegisterTable.InputRegister, 3, word, Timeout, CancellationToken.None);
        double afterSent = ((double)result.At - link.SentAt[^1]) / _time.TimestampFrequency;
        Assert.Equal((8 * Character).TotalSeconds + 0.00175 + 0.000625, afterSent, 1e-5);
    });

    [Theory]
    [InlineData(LinkProtocol.ModbusRtu)]
    [InlineData(LinkProtocol.ModbusTcp)]
    public void Read_DeviceRefuses_SaysWhichException(LinkProtocol protocol) => _time.Run(async () =>
    {
        await using ModbusClient client = Client(protocol, out _);
        ModbusResult result = await client.ReadRegistersAsync(5, RegisterTable.InputRegister, 199, new ushort[2], Timeout, CancellationToken.None);
        Assert.Equal((DeviceFaultKind.Refused, ExceptionCode.IllegalDataAddress), (result.Fault!.Value, result.Exception));
    });

    [Theory]
    [InlineData(LinkProtocol.ModbusRtu)]
    [InlineData(LinkProtocol.ModbusTcp)]
    public void Read_NoAnswer_IsSilentAfterTheTimeout(LinkProtocol protocol) => _time.Run(async () =>
    {
        await using ModbusClient client = Client(protocol, out ScriptedLink link);
        link.Far = _ => [];
        ModbusResult result = await client.ReadRegistersAsync(5, RegisterTable.InputRegister, 0, new ushort[1], Timeout, CancellationToken.None);
        Assert.Equal(DeviceFaultKind.Silent, result.Fault);

        // Request of 8 and answer of 7 characters have their own time on a serial wire.
        TimeSpan expected = protocol == LinkProtocol.ModbusRtu ? Timeout + (15 * Character) : Timeout;
        Assert.InRange((_time.Now - expected).TotalMilliseconds, 0, 1);
    });

    [Fact]
    public void Read_AnyOneBitFlipped_IsNeverTakenForAnAnswer() => Gen.Int[0, (7 * 8) - 1].Sample(flip => _time.Run(async () =>
    {
        await using ModbusClient client = Client(LinkProtocol.ModbusRtu, out ScriptedLink link);
        link.Far = request =>
        {
            byte[] answer = Respond(request);
            answer[flip / 8] ^= (byte)(1 << (flip % 8));
            return [(TimeSpan.FromMilliseconds(2), answer)];
        };
        ModbusResult result = await client.ReadRegistersAsync(5, RegisterTable.InputRegister, 3, new ushort[1], Timeout, CancellationToken.None);
        Assert.Equal(DeviceFaultKind.Garbled, result.Fault);
    }), threads: 1);

    [Fact]
    public void Read_LateRtuAnswerBeforeTheNextRequest_IsThrownAway() => _time.Run(async () =>
    {
        await using ModbusClient client = Client(LinkProtocol.ModbusRtu, out ScriptedLink link);
        link.Far = request => [(TimeSpan.FromMilliseconds(60), Respond(request))];
        ushort[] words = new ushort[1];
        Assert.Equal(
            DeviceFaultKind.Silent,
            (await client.ReadRegistersAsync(5, RegisterTable.InputRegister, 3, words, Timeout, CancellationToken.None)).Fault);
        await Task.Delay(TimeSpan.FromMilliseconds(50), _time);
        link.Far = _ => [];
        Assert.Equal(
            DeviceFaultKind.Silent,
            (await client.ReadRegistersAsync(5, RegisterTable.InputRegister, 4, words, Timeout, CancellationToken.None)).Fault);
        Assert.Equal(0, words[0]);
    });

    // RTU has no transaction numbers: the answer to register 3 comes while that to register 4 is waited for.
    [Theory]
    [InlineData(5)]
    [InlineData(20)]
    [InlineData(200)]
    public void Read_LateRtuAnswerAfterTheNextRequest_IsNeverTakenForIts(int lateMs) => _time.Run(async () =>
    {
        await using ModbusClient client = Client(LinkProtocol.ModbusRtu, out ScriptedLink link);
        await KnowAsync(client);
        TimeSpan usual = TimeSpan.FromMilliseconds(2);
        TimeSpan longest = Timeout + (15 * Character);
        link.Far = request => [(longest + TimeSpan.FromMilliseconds(lateMs), Respond(request))];
        ushort[] words = new ushort[1];
        Assert.Equal(DeviceFaultKind.Silent, (await client.ReadRegistersAsync(5, RegisterTable.InputRegister, 3, words, Timeout, CancellationToken.None)).Fault);
        link.Far = request => [(usual + TimeSpan.FromMilliseconds(lateMs), Respond(request))];
        for (int i = 0; i < 8; i++)
        {
            ModbusResult result = await client.ReadRegistersAsync(5, RegisterTable.InputRegister, 4, words, Timeout, CancellationToken.None);
            Assert.True(!result.Ok || words[0] == 1004, $"read {i} took {words[0]}");
            link.Far = request => [(usual, Respond(request))];
        }

        Assert.Equal(1004, words[0]);
    });

    [Fact]
    public void Read_AfterALostAnswer_IsTakenAtOnceOrAfterTheUsualTurnaround() => _time.Run(async () =>
    {
        await using ModbusClient client = Client(LinkProtocol.ModbusRtu, out ScriptedLink link);
        await KnowAsync(client);
        link.Far = _ => [];
        ushort[] words = new ushort[1];
        Assert.False((await client.ReadRegistersAsync(5, RegisterTable.InputRegister, 3, words, Timeout, CancellationToken.None)).Ok);
        link.Far = request => [(TimeSpan.FromMilliseconds(2), Respond(request))];
        TimeSpan began = _time.Now;
        Assert.True((await client.ReadRegistersAsync(5, RegisterTable.InputRegister, 4, words, Timeout, CancellationToken.None)).Ok);
        Assert.Equal(1004, words[0]);
        Assert.True(_time.Now - began < TimeSpan.FromMilliseconds(10), $"{_time.Now - began}");
    });

    [Fact]
    public void Read_LateTcpAnswerAfterTheNextRequest_IsPassedOver() => _time.Run(async () =>
    {
        await using ModbusClient client = Client(LinkProtocol.ModbusTcp, out ScriptedLink link);
        link.Far = request => [(TimeSpan.FromMilliseconds(45), Respond(request, LinkProtocol.ModbusTcp))];
        ushort[] words = new ushort[1];
        Assert.Equal(
            DeviceFaultKind.Silent,
            (await client.ReadRegistersAsync(5, RegisterTable.InputRegister, 3, words, Timeout, CancellationToken.None)).Fault);
        link.Far = request => [(TimeSpan.FromMilliseconds(20), Respond(request, LinkProtocol.ModbusTcp))];
        Assert.True((await client.ReadRegistersAsync(5, RegisterTable.InputRegister, 4, words, Timeout, CancellationToken.None)).Ok);
        Assert.Equal(1004, words[0]);
    });

    [Fact]
    public void Read_TcpAnswerInTwoPartsAcrossATimeout_KeepsTheStreamInStep() => _time.Run(async () =>
    {
        await using ModbusClient client = Client(LinkProtocol.ModbusTcp, out ScriptedLink link);
        link.Far = request =>
        {
            byte[] answer = Respond(request, LinkProtocol.ModbusTcp);
            return [(TimeSpan.FromMilliseconds(30), answer[..5]), (TimeSpan.FromMilliseconds(45), answer[5..])];
        };
        ushort[] words = new ushort[1];
        Assert.False((await client.ReadRegistersAsync(5, RegisterTable.InputRegister, 3, words, Timeout, CancellationToken.None)).Ok);
        link.Far = request => [(TimeSpan.FromMilliseconds(20), Respond(request, LinkProtocol.ModbusTcp))];
        Assert.True((await client.ReadRegistersAsync(5, RegisterTable.InputRegister, 4, words, Timeout, CancellationToken.None)).Ok);
        Assert.Equal(1004, words[0]);
    });

    [Fact]
    public void Read_CallerGivesUp_ThrowsAndTheNextReadIsRight() => _time.Run(async () =>
    {
        await using ModbusClient client = Client(LinkProtocol.ModbusRtu, out ScriptedLink link);
        link.Far = request => [(TimeSpan.FromMilliseconds(10), Respond(request))];
        using CancellationTokenSource cancel = new(TimeSpan.FromMilliseconds(5), _time);
        ushort[] words = new ushort[1];
        await Assert.ThrowsAnyAsync<OperationCanceledException>(
            () => client.ReadRegistersAsync(5, RegisterTable.InputRegister, 3, words, Timeout, cancel.Token).AsTask());
        Assert.Equal(5, _time.Now.TotalMilliseconds, 0.001);
        Assert.True((await client.ReadRegistersAsync(5, RegisterTable.InputRegister, 3, words, Timeout, CancellationToken.None)).Ok);
    });

    [Fact]
    public void Read_ForeignFramesAndNoiseBeforeTheAnswer_FindsItsOwn() => _time.Run(async () =>
    {
        await using ModbusClient client = Client(LinkProtocol.ModbusRtu, out ScriptedLink link);
        byte[] foreign = new byte[7];
        foreign[1] = 4;
        foreign[2] = 2;
        RtuFrame.Close(foreign, 6, 4);
        link.Far = request => [(TimeSpan.FromMilliseconds(1), foreign), (TimeSpan.FromMilliseconds(2), [0xFF, 0x05, .. Respond(request)])];
        ushort[] words = new ushort[1];
        Assert.True((await client.ReadRegistersAsync(5, RegisterTable.InputRegister, 3, words, Timeout, CancellationToken.None)).Ok);
        Assert.Equal(1003, words[0]);
    });

    [Fact]
    public void Write_AnswerOfAnotherWrite_IsNotTakenForItsOwn() => _time.Run(async () =>
    {
        await using ModbusClient client = Client(LinkProtocol.ModbusRtu, out ScriptedLink link);
        byte[]? on = null;
        link.Far = request => [(TimeSpan.FromMilliseconds(1), on ??= request)];
        Assert.True((await client.WriteCoilAsync(5, 1, true, Timeout, CancellationToken.None)).Ok);
        Assert.Equal(DeviceFaultKind.Garbled, (await client.WriteCoilAsync(5, 1, false, Timeout, CancellationToken.None)).Fault);
    });

    [Fact]
    public void Read_LinkGone_IsAResult() => _time.Run(async () =>
    {
        await using ModbusClient client = Client(LinkProtocol.ModbusRtu, out ScriptedLink link);
        link.Gone = true;
        Assert.Equal(
            DeviceFaultKind.LinkLost,
            (await client.ReadRegistersAsync(5, RegisterTable.InputRegister, 3, new ushort[1], Timeout, CancellationToken.None)).Fault);
        link.Gone = false;
        link.End();
        Assert.Equal(
            DeviceFaultKind.LinkLost,
            (await client.ReadRegistersAsync(5, RegisterTable.InputRegister, 3, new ushort[1], Timeout, CancellationToken.None)).Fault);
    });

    [Fact]
    public void Requests_OneAfterTheOther_KeepTheGap() => _time.Run(async () =>
    {
        await using ModbusClient client = Client(LinkProtocol.ModbusRtu, out ScriptedLink link);
        for (int i = 0; i < 3; i++)
        {
            await client.ReadRegistersAsync(5, RegisterTable.InputRegister, 3, new ushort[1], Timeout, CancellationToken.None);
        }

        // The answer is whole 2 ms after the request; 1.75 ms of silence must follow.
        Assert.All(
            link.SentAt.Zip(link.SentAt.Skip(1), (a, b) => TimeSpan.FromTicks(b - a)),
            apart => Assert.InRange(apart.TotalMilliseconds, 3.75, 3.76));
    });

    [Fact]
    public void Broadcast_IsSentOnceAndTheLineRests() => _time.Run(async () =>
    {
        await using ModbusClient client = Client(LinkProtocol.ModbusRtu, out ScriptedLink link);
        Assert.True((await client.WriteCoilAsync(0, 1, true, Timeout, CancellationToken.None)).Ok);
        Assert.Equal(1, _coils[1]);
        await client.ReadyAsync(CancellationToken.None);
        Assert.True(_time.Now >= Timeout + (8 * Character));
        Assert.Single(link.Sent);
    });

    [Fact]
    public void Read_AnswerAfterATurnaround_EstimatesTheMiddleOfWhatFollowsTheSilence() => _time.Run(async () =>
    {
        await using ModbusClient client = Client(LinkProtocol.ModbusRtu, out ScriptedLink link);
        TimeSpan turnaround = TimeSpan.FromMilliseconds(3);
        link.Far = request => [((15 * Character) + turnaround, Respond(request))];
        ModbusResult result = await client.ReadRegistersAsync(5, RegisterTable.InputRegister, 3, new ushort[1], Timeout, CancellationToken.None);
        Assert.Equal((8 * Character).TotalSeconds + 0.00175 + 0.000625, result.At / (double)_time.TimestampFrequency, 1e-6);
        Assert.Equal(0.000625, result.AtUncertainty, 1e-6);
    });

    [Fact]
    public void Read_MoreThanModbusAllows_IsTheCallersMistake() => _time.Run(async () =>
    {
        await using ModbusClient client = Client(LinkProtocol.ModbusRtu, out _);
        await Assert.ThrowsAsync<ArgumentException>(() =>
            client.ReadRegistersAsync(5, RegisterTable.InputRegister, 0, new ushort[126], Timeout, CancellationToken.None).AsTask());
        await Assert.ThrowsAsync<ArgumentException>(() =>
            client.ReadRegistersAsync(5, RegisterTable.InputRegister, 65535, new ushort[2], Timeout, CancellationToken.None).AsTask());
        await Assert.ThrowsAsync<ArgumentException>(() =>
            client.WriteRegistersAsync(5, 0, new ushort[124], Timeout, CancellationToken.None).AsTask());
        await Assert.ThrowsAsync<ArgumentException>(() =>
            client.WriteCoilsAsync(5, 0, new bool[1969], Timeout, CancellationToken.None).AsTask());
        await Assert.ThrowsAsync<ArgumentOutOfRangeException>(() =>
            client.WriteCoilAsync(248, 0, true, Timeout, CancellationToken.None).AsTask());
    });

    // Answers enough for the client to know the device's turnaround.
    private static async Task KnowAsync(ModbusClient client)
    {
        for (int i = 0; i < 20; i++)
        {
            Assert.True((await client.ReadRegistersAsync(5, RegisterTable.InputRegister, 3, new ushort[1], Timeout, CancellationToken.None)).Ok);
        }
    }

    private ModbusClient Client(LinkProtocol protocol, out ScriptedLink link)
    {
        link = new ScriptedLink(_time, protocol == LinkProtocol.ModbusRtu ? Character : TimeSpan.Zero)
        {
            Far = request => [(TimeSpan.FromMilliseconds(2), Respond(request, protocol))],
        };
        return new ModbusClient(link, protocol, _time);
    }

    private byte[] Respond(byte[] request, LinkProtocol protocol = LinkProtocol.ModbusRtu)
    {
        byte[] response = new byte[ModbusLimits.MostTcpBytes];
        int length = protocol == LinkProtocol.ModbusRtu ? _server.RespondRtu(request, response) : _server.RespondTcp(request, response);
        return response[..length];
    }
}

using Bench.Devices.Modbus;
using Bench.Devices.Modbus.Server;
using CsCheck;

namespace Bench.Tests.Devices.Modbus.Server;

public class RequestFinderTests
{
    private static readonly ModbusServer Devices = new(new Dictionary<int, RegisterMap> { [1] = new() });

    [Fact]
    public void TryTake_RequestsCutAtAnyPlace_AreAllFound() =>
        Gen.Int[1, 40].Array[1, 30].Sample(cuts =>
        {
            string[] names = ["read-coils-20-38", "write-coils-20-29", "read-write-registers", "mask-write-register-5", "write-registers-2-3"];
            byte[][] frames = [.. names.Select(n => GoldenFrame.Named(n).RtuRequest)];
            Assert.Equal(frames, Feed([.. frames.SelectMany(f => f)], cuts));
        });

    [Fact]
    public void TryTake_NoiseOrHalfAFrameBefore_StillFindsTheRequest() =>
        Gen.Select(Gen.Byte.Array[0, 40], Gen.Int[1, 40].Array[1, 10]).Sample((noise, cuts) =>
        {
            byte[] frame = GoldenFrame.Named("read-registers-108-110").RtuRequest;
            List<byte[]> found = Feed([.. noise, .. frame], cuts);
            Assert.Contains(frame, found);
        });

    [Fact]
    public void TryTake_ForeignAnswerBefore_StillFindsTheRequest()
    {
        byte[] answer = GoldenFrame.Named("read-write-registers").RtuAnswer;
        byte[] frame = GoldenFrame.Named("write-coil-173-on").RtuRequest;
        Assert.Equal([frame], Feed([.. answer, .. frame], [5]));
    }

    [Fact]
    public void TryTake_UnknownFunctionForADeviceHere_IsFoundByItsCrc()
    {
        byte[] frame = new byte[6];
        frame[1] = 0x2B;
        RtuFrame.Close(frame, 1, 3);
        Assert.Equal([frame], Feed(frame, [6]));
    }

    [Fact]
    public void TryTake_EndlessNoise_NeverFillsUp() =>
        Gen.Byte.Array[3000, 5000].Sample(noise => { Feed(noise, [1, 7, 300]); });

    private static List<byte[]> Feed(byte[] stream, int[] cuts)
    {
        RequestFinder finder = new(Devices, rtu: true);
        List<byte[]> found = [];
        byte[] frame = new byte[ModbusLimits.MostTcpBytes];
        for (int at = 0, turn = 0; at < stream.Length; turn++)
        {
            int take = Math.Min(cuts[turn % cuts.Length], stream.Length - at);
            stream.AsSpan(at, take).CopyTo(finder.Room.Span);
            finder.Added(take);
            at += take;
            for (int length; (length = finder.TryTake(frame)) > 0;)
            {
                found.Add(frame[..length]);
            }
        }

        return found;
    }
}

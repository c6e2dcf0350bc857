using Bench.Devices.Links;
using Bench.Devices.Modbus;
using Bench.Model.BenchFiles;
using Bench.Model.Profiles;
using Bench.Simulation.Benches;
using Bench.Simulation.Faults;
using Bench.Simulation.Time;

namespace Bench.Tests.Simulation.Faults;

// What each fault does to one read of a coil, seen at the program's end of the link.
public class FaultyWireTests
{
    private const int AnswerBytes = 6;
    private static readonly byte[] ReadCoil = Request();

    [Theory]
    [InlineData(FaultKind.Lost, 0)]
    [InlineData(FaultKind.Doubled, 2 * AnswerBytes)]
    [InlineData(FaultKind.Split, AnswerBytes)]
    [InlineData(FaultKind.BitFlipped, AnswerBytes)]
    public void Answer_UnderFault_ArrivesWithSoManyBytes(FaultKind kind, int bytes) =>
        Assert.Equal(bytes, Heard(new Fault(kind, 0, 10, Side: WireSide.Answers)).Length);

    [Fact]
    public void Answer_BitFlipped_FailsItsChecksum() =>
        Assert.False(RtuFrame.IsWhole(Heard(new Fault(FaultKind.BitFlipped, 0, 10, Side: WireSide.Answers))));

    [Fact]
    public void Answer_AfterTheMostHits_IsWhole() =>
        Assert.Equal(2 * AnswerBytes, Heard(new Fault(FaultKind.Lost, 0, 10, MostHits: 1, Side: WireSide.Answers), requests: 3).Length);

    [Fact]
    public void Request_Echoed_IsHeardBeforeItsAnswer()
    {
        byte[] heard = Heard(new Fault(FaultKind.Echo, 0, 10));
        Assert.Equal(ReadCoil, heard[..ReadCoil.Length]);
        Assert.Equal(ReadCoil.Length + AnswerBytes, heard.Length);
    }

    [Fact]
    public void Foreign_Frames_AreWholeAndOfOtherAddresses()
    {
        byte[] heard = Heard(new Fault(FaultKind.Foreign, 0, 10, Side: WireSide.Answers));
        Assert.True(heard.Length > AnswerBytes);
        Assert.True(RtuFrame.IsWhole(heard.AsSpan(0, heard.Length - AnswerBytes)));
        Assert.DoesNotContain(heard[0], new byte[] { 1, 11 });
    }

    [Fact]
    public void Fault_OfTheFeedbacksWires_LeavesTheBoardsFramesAlone() =>
        Assert.True(RtuFrame.IsWhole(Heard(new Fault(FaultKind.FeedbackGarbled, 0, 10))));

    private static byte[] Heard(Fault fault, int requests = 1)
    {
        VirtualTime time = new(new DateTimeOffset(2026, 6, 1, 8, 0, 0, TimeSpan.Zero));
        BenchFile file = BenchFileReader.Read(StandardBench.OnSerialPort("/dev/ttyUSB0", [DriveKind.Reversing], new DateOnly(2026, 3, 1)), "bench.toml");
        SimulatedBench bench = new(file, new Dictionary<string, SimulatedUnit>(), time, 1);
        SimulatedLinkOpener opener = new(bench, time, new FaultPlan(3, [fault]));
        return time.Run(async () =>
        {
            await using ILink link = await opener.OpenAsync(file.Links[0], default);
            List<byte> heard = [];
            byte[] buffer = new byte[256];
            for (int i = 0; i < requests; i++)
            {
                await link.WriteAsync(ReadCoil, default);
                await Task.Delay(TimeSpan.FromMilliseconds(200), time);
            }

            try
            {
                using CancellationTokenSource soon = new(TimeSpan.FromMilliseconds(10), time);
                while (true)
                {
                    int read = await link.ReadAsync(buffer, soon.Token);
                    heard.AddRange(buffer[..read]);
                }
            }
            catch (OperationCanceledException)
            {
                return heard.ToArray();
            }
        });
    }

    private static byte[] Request()
    {
        byte[] frame = [0, 1, 0, 0, 0, 1, 0, 0];
        RtuFrame.Close(frame, 1, 5);
        return frame;
    }
}

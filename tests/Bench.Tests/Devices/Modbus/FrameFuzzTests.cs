using Bench.Devices.Modbus;
using Bench.Devices.Modbus.Client;
using Bench.Devices.Modbus.Server;
using Bench.Tests.Model;
using CsCheck;

namespace Bench.Tests.Devices.Modbus;

/// <summary>
/// Parsers of client and server under bytes that nobody sent: they never throw, never read outside what has come, and never
/// take for whole what is not. Bytes come from the saved corpus, damaged at random, in pieces of any size.
/// </summary>
public class FrameFuzzTests
{
    private const int Rounds = 20_000;

    private static readonly byte[][] Corpus = ReadCorpus();

    private static readonly Gen<byte[]> Streams = Gen.Select(
        Gen.Int[0, Corpus.Length - 1].Array[1, 4],
        Gen.Select(Gen.Int[0, 4000], Gen.Byte).Array[0, 3],
        Gen.Byte.Array[0, 20],
        Damaged);

    private static readonly ModbusServer Server = new(new Dictionary<int, RegisterMap>
    {
        [1] = new() { Identity = new DeviceIdentity("vendor", "product", "1") },
    });

    [Fact]
    public void Server_AnyStreamOnRtu_TakesOnlyFramesThatAreWholeAndInIt() =>
        Gen.Select(Streams, Gen.Int[1, 300].Array[1, 8]).Sample(
            (stream, cuts) =>
            {
                foreach (byte[] frame in Requests(stream, cuts, rtu: true))
                {
                    Assert.Equal(Crc16.Of(frame.AsSpan(0, frame.Length - 2)), frame[^2] | (frame[^1] << 8));
                    Assert.True(stream.AsSpan().IndexOf(frame) >= 0);
                }
            },
            iter: Rounds);

    [Fact]
    public void Server_AnyStreamOnTcp_TakesOnlyFramesWhoseHeaderHolds() =>
        Gen.Select(Streams, Gen.Int[1, 300].Array[1, 8]).Sample(
            (stream, cuts) =>
            {
                foreach (byte[] frame in Requests(stream, cuts, rtu: false))
                {
                    Assert.Equal(frame.Length - 6, (frame[4] << 8) | frame[5]);
                    Assert.True(stream.AsSpan().IndexOf(frame) >= 0);
                }
            },
            iter: Rounds);

    [Fact]
    public void Client_AnyStreamOnRtu_TakesOnlyAnAnswerThatIsWholeAndFits() =>
        Gen.Select(Streams, Gen.Int[1, 300].Array[1, 8], Gen.OneOf(Gen.Const("2B0E0100"), Gen.Const("03006B0003"), Gen.Const("0800 00A537"), Gen.Const("05 00 AC FF 00"))).Sample(
            (stream, cuts, asked) => TakeAnswer(
                new RtuAnswerFraming(),
                Convert.FromHexString(asked.Replace(" ", "", StringComparison.Ordinal)),
                stream,
                cuts,
                pdu =>
                {
                    byte[] frame = new byte[pdu.Length + RtuFrame.Overhead];
                    pdu.CopyTo(frame, 1);
                    RtuFrame.Close(frame, 1, pdu.Length);
                    Assert.True(stream.AsSpan().IndexOf(frame) >= 0);
                }),
            iter: Rounds);

    [Fact]
    public void Client_AnyStreamOnTcp_TakesOnlyAnAnswerOfItsTransaction() =>
        Gen.Select(Streams, Gen.Int[1, 300].Array[1, 8], Gen.OneOf(Gen.Const("2B0E0100"), Gen.Const("03006B0003"))).Sample(
            (stream, cuts, asked) => TakeAnswer(
                new TcpAnswerFraming(),
                Convert.FromHexString(asked),
                stream,
                cuts,
                pdu =>
                {
                    byte[] frame = [0, 1, 0, 0, 0, (byte)(pdu.Length + 1), 1, .. pdu];
                    Assert.True(stream.AsSpan().IndexOf(frame) >= 0);
                }),
            iter: Rounds);

    [Fact]
    public void Corpus_EveryFile_IsThere() => Assert.True(Corpus.Length >= 16);

    private static byte[] Damaged(int[] parts, (int At, byte Value)[] changes, byte[] noise)
    {
        byte[] stream = [.. parts.SelectMany((p, i) => i == 1 ? [.. noise, .. Corpus[p]] : Corpus[p])];
        foreach ((int at, byte value) in changes)
        {
            stream[at % stream.Length] = value;
        }

        return stream;
    }

    private static List<byte[]> Requests(byte[] stream, int[] cuts, bool rtu)
    {
        RequestFinder finder = new(Server, rtu);
        byte[] frame = new byte[ModbusLimits.MostTcpBytes];
        byte[] response = new byte[ModbusLimits.MostTcpBytes];
        List<byte[]> found = [];
        foreach (byte[] piece in Pieces(stream, cuts))
        {
            piece.CopyTo(finder.Room);
            finder.Added(piece.Length);
            for (int length; (length = finder.TryTake(frame)) > 0;)
            {
                found.Add(frame[..length]);
                _ = rtu ? Server.RespondRtu(frame.AsSpan(0, length), response) : Server.RespondTcp(frame.AsSpan(0, length), response);
            }
        }

        return found;
    }

    private static void TakeAnswer(IAnswerFraming framing, byte[] request, byte[] stream, int[] cuts, Action<byte[]> taken)
    {
        Assert.Equal(ExceptionCode.None, ModbusRequest.Decode(request, out ModbusRequest asked));
        byte[] frame = new byte[ModbusLimits.MostTcpBytes];
        byte[] pdu = new byte[ModbusLimits.MostPduBytes];
        request.CopyTo(frame, framing.PduAt);
        framing.Close(frame, 1, request.Length);
        foreach (byte[] piece in Pieces(stream, cuts))
        {
            piece.CopyTo(framing.Room);
            framing.Added(piece.Length);
            int length = framing.TryTake(1, request, asked.AnswerLength, pdu);
            if (length == IAnswerFraming.Damaged)
            {
                return;
            }

            if (length != IAnswerFraming.NotYet)
            {
                Assert.Equal(request[0], pdu[0] & 0x7F);
                taken(pdu[..length]);
                if (request[0] == 0x2B && !Answer.IsException(pdu))
                {
                    new IdentityReading().Take(pdu.AsSpan(0, length));
                }

                return;
            }
        }
    }

    private static IEnumerable<byte[]> Pieces(byte[] stream, int[] cuts)
    {
        for (int at = 0, turn = 0; at < stream.Length; turn++)
        {
            int take = Math.Min(cuts[turn % cuts.Length], stream.Length - at);
            yield return stream[at..(at + take)];
            at += take;
        }
    }

    private static byte[][] ReadCorpus()
    {
        string folder = Path.Combine(RepositoryFiles.Root, "fixtures", "modbus", "corpus");
        return [.. Directory.EnumerateFiles(folder, "*.hex").Order(StringComparer.Ordinal).Select(f => Convert.FromHexString(
            File.ReadAllLines(f)[1].Replace(" ", "", StringComparison.Ordinal)))];
    }
}

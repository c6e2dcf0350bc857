using Bench.Devices.Discovery;
using Bench.Devices.Links;
using Bench.Model.BenchFiles;
using Bench.Model.Instruments;

namespace Bench.Tests.Devices.Discovery;

// The two devices of the bus (addresses 1 and 2) know no holding register: they refuse, and so are there.
public class LinkWalkTests
{
    private static readonly LinkDescription Place = LinkPlace.Parse("/dev/ttyUSB0");
    private readonly SteppedTime _time = new();
    private readonly Bus _bus;
    private readonly Opener _opener;

    public LinkWalkTests()
    {
        _bus = new Bus(_time);
        _opener = new Opener(_bus, 19200);
    }

    [Fact]
    public void Walk_SeveralSpeeds_FindsDevicesAtTheirsAndAsksThemNoMore() => _time.Run(async () =>
    {
        DiscoveryRange range = new([1, 2, 3], [9600, 19200, 115200], [SerialParity.None]);
        List<DiscoveryStep> steps = await WalkAsync(range);
        Assert.Equal([(1, 19200), (2, 19200)], steps.Where(s => s.Found is not null).Select(s => (s.Address, s.Link.Baud)));
        Assert.All(steps.Select(s => s.Found).OfType<DiscoveredDevice>(), d => Assert.Equal(DiscoveredAnswer.Refusal, d.Answer));
        Assert.Equal(3 + 3 + 1, steps.Count);
    });

    [Fact]
    public void Walk_EveryAddress_OnlyReadsOnceEachAndKeepsPauses() => _time.Run(async () =>
    {
        List<DiscoveryStep> steps = await WalkAsync(DiscoveryRange.Whole with { Bauds = [19200], Parities = [SerialParity.None] });
        Assert.Equal(Enumerable.Range(1, 247), steps.Select(s => s.Address));
        Assert.Equal(247, _bus.Link.Sent.Count);
        Assert.All(_bus.Link.Sent, frame => Assert.Equal((8, 3, 1), (frame.Length, frame[1], frame[5]))); // function 03, one register
        Assert.Empty(_bus.Writes);
        for (int i = 1; i < _bus.Link.SentAt.Count; i++)
        {
            Assert.True(_bus.Link.SentAt[i] - _bus.Link.SentAt[i - 1] >= LinkWalk.Rest.Ticks);
        }
    });

    [Fact]
    public void Walk_Cancelled_StopsBetweenQuestions() => _time.Run(async () =>
    {
        using CancellationTokenSource stop = new();
        List<int> asked = [];
        await Assert.ThrowsAnyAsync<OperationCanceledException>(async () =>
        {
            await foreach (DiscoveryStep step in new LinkWalk(_opener, _time).WalkAsync(Place, DiscoveryRange.Whole with { Bauds = [19200] }, stop.Token))
            {
                asked.Add(step.Address);
                if (asked.Count == 5)
                {
                    await stop.CancelAsync();
                }
            }
        });
        Assert.Equal([1, 2, 3, 4, 5], asked);
        Assert.True(_bus.Link.Disposed);
    });

    [Fact]
    public void Walk_AnswerDamaged_IsReportedAndAskedAgainAtTheNextSetting() => _time.Run(async () =>
    {
        bool first = true;
        _opener.Far = request =>
        {
            (TimeSpan After, byte[] Bytes)[] answers = [.. _bus.Answer(request)];
            if (first && request[0] == 1)
            {
                first = false;
                answers[0].Bytes[1] ^= 0xFF;
            }

            return answers;
        };
        List<DiscoveryStep> steps = await WalkAsync(new([1], [19200], [SerialParity.None, SerialParity.Even]));
        Assert.Equal([DiscoveredAnswer.Damaged, DiscoveredAnswer.Refusal], steps.Select(s => s.Found!.Answer));
    });

    [Fact]
    public void Walk_LinkPulled_SaysSo() => _time.Run(async () =>
    {
        _bus.Link.Gone = true;
        DeviceFaultException e = await Assert.ThrowsAsync<DeviceFaultException>(() => WalkAsync(DiscoveryRange.Whole));
        Assert.Equal(DeviceFaultKind.LinkLost, e.Fault.Kind);
    });

    // Two gateway exceptions say that nobody is behind an address (Modbus Application Protocol V1.1b3, section 7: 0A, 0B).
    [Theory]
    [InlineData(0x0A)]
    [InlineData(0x0B)]
    public void Walk_GatewayThatReachesNobody_FindsNothing(byte exception) => _time.Run(async () =>
    {
        _opener.Far = request => [(TimeSpan.FromMilliseconds(1), [request[0], request[1], 0, 0, 0, 3, request[6], 0x83, exception])];
        List<DiscoveryStep> steps = [];
        await foreach (DiscoveryStep step in new LinkWalk(_opener, _time).WalkAsync(LinkPlace.Parse("192.0.2.7:502"), DiscoveryRange.Whole with { Addresses = [1, 2] }, default))
        {
            steps.Add(step);
        }

        Assert.Equal(2, steps.Count);
        Assert.All(steps, s => Assert.Null(s.Found));
    });

    private async Task<List<DiscoveryStep>> WalkAsync(DiscoveryRange range)
    {
        List<DiscoveryStep> steps = [];
        await foreach (DiscoveryStep step in new LinkWalk(_opener, _time).WalkAsync(Place, range, default))
        {
            steps.Add(step);
        }

        return steps;
    }

    /// <summary>Hands out the bus; at another speed than its own nobody on it understands.</summary>
    private sealed class Opener(Bus bus, int baud) : ILinkOpener
    {
        /// <summary>What comes back at its own speed; a device that is not there sends nothing.</summary>
        public Func<byte[], IEnumerable<(TimeSpan After, byte[] Bytes)>> Far { get; set; } = request => bus.Answer(request).Where(a => a.Bytes.Length > 0);

        public ValueTask<ILink> OpenAsync(LinkDescription link, CancellationToken cancel)
        {
            bus.Link.Far = link.Kind == LinkKind.Tcp || link.Baud == baud ? Far : _ => [];
            return ValueTask.FromResult<ILink>(bus.Link);
        }
    }
}

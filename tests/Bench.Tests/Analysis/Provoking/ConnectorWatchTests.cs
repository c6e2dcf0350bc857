using Bench.Analysis.Provoking;
using Bench.Model.Features;

namespace Bench.Tests.Analysis.Provoking;

/// <summary>Readings ten milliseconds apart from 100 s on, by hand.</summary>
public class ConnectorWatchTests
{
    private const double SoundV = 24;
    private readonly ConnectorWatch _watch = new(100, leastSupplyV: 10.2);
    private readonly List<bool> _seconds = [];

    [Fact]
    public void Take_FeedbackSilentForASecond_IsADropoutWithItsInstantAndLength()
    {
        Read(100, 101.5);
        Read(101.5, 102.2, heard: false);
        Read(102.2, 104.5);

        ConnectorDropout one = Assert.Single(_watch.Dropouts);
        Assert.Equal(ConnectorPair.Feedback, one.Pair);
        Assert.Equal(101.5, one.AtS, 6);
        Assert.Equal(0.7, one.LengthS, 6);
        Assert.Equal([true, false, false, true], _seconds);
    }

    [Fact]
    public void Take_OneReadingLost_IsNone()
    {
        Read(100, 100.5);
        Read(100.5, 100.51, heard: false);
        Read(100.51, 101.5);
        Assert.Empty(_watch.Dropouts);
        Assert.Equal([true], _seconds);
    }

    // The whole bus was silent: that says nothing of the unit.
    [Fact]
    public void Take_BenchSilentToo_IsNone()
    {
        Read(100, 100.5);
        Read(100.5, 101.2, heard: false, witnessed: false);
        Read(101.2, 102.5);
        Assert.Empty(_watch.Dropouts);
        Assert.Equal([true, true], _seconds);
    }

    [Fact]
    public void Take_VoltageGone_IsTheSupplyPairs()
    {
        Read(100, 100.3);
        Read(100.3, 100.4, volt: 0.1);
        Read(100.4, 101.1);
        Assert.Equal((ConnectorPair.Supply, 1), (_watch.Dropouts[0].Pair, _watch.Dropouts.Count));
        Assert.Equal(0.1, _watch.Dropouts[0].LengthS, 6);
        Assert.Equal([false], _seconds);
    }

    [Fact]
    public void End_StillOpen_LastsToTheLastReading()
    {
        Read(100, 100.3, heard: false);
        Assert.Empty(_watch.Dropouts);
        _watch.End();
        Assert.Equal(0.29, Assert.Single(_watch.Dropouts).LengthS, 6);
    }

    private void Read(double fromS, double toS, bool heard = true, bool witnessed = true, double volt = SoundV)
    {
        for (int i = (int)Math.Round(fromS * 100); i < (int)Math.Round(toS * 100); i++)
        {
            _seconds.AddRange(_watch.Take(i / 100.0, heard, witnessed, volt));
        }
    }
}

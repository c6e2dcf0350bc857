using Bench.Devices.Feedbacks;
using Bench.Model.BenchFiles;
using Bench.Model.Instruments;
using Bench.Model.Rings;
using CsCheck;

namespace Bench.Tests.Devices.Feedbacks;

public class IncrementalFeedbackTests
{
    private readonly CountScript _source = new();

    [Fact]
    public void Read_FirstReading_IsHome() => Assert.Equal([200], Counts(Counter(16, 3200, home: 200), 41_234));

    [Fact]
    public void Read_TurningUpThroughTheWrap_GoesOn() =>
        Assert.Equal([0, 25, 50, 75, 0], Counts(Counter(8, 100, home: 0), 230, 255, 24, 49, 74));

    [Fact]
    public void Read_TurningDownThroughTheWrap_GoesOn() =>
        Assert.Equal([0, 90, 80, 70], Counts(Counter(8, 100, home: 0), 5, 251, 241, 231));

    [Fact]
    public void Read_Reversed_RisesWhereTheCounterFalls() =>
        Assert.Equal([0, 10, 20], Counts(Counter(8, 100, home: 0) with { Reversed = true }, 5, 251, 241));

    [Fact]
    public void Read_ReadingsLostBetween_KeepsThePlace()
    {
        IncrementalFeedback feedback = Feedback(Counter(8, 100, home: 0));
        Assert.Equal(0, Read(feedback, CountScript.Of(0)).Count);
        Assert.Equal(FeedbackStatus.Silent, Read(feedback, CountScript.Failed(DeviceFaultKind.Silent)).Status);
        Assert.Equal(FeedbackStatus.Garbled, Read(feedback, CountScript.Failed(DeviceFaultKind.Garbled)).Status);
        Assert.Equal(90, Read(feedback, CountScript.Of(90)).Count);
    }

    [Fact]
    public void Read_ValueBeyondTheCounter_IsNoPlaceAndForgotten()
    {
        IncrementalFeedback feedback = Feedback(Counter(8, 100, home: 0));
        Assert.Equal(0, Read(feedback, CountScript.Of(10)).Count);
        Assert.Equal(FeedbackStatus.OutOfRange, Read(feedback, CountScript.Of(256)).Status);
        Assert.Equal(FeedbackStatus.OutOfRange, Read(feedback, CountScript.Of(-1)).Status);
        Assert.Equal(5, Read(feedback, CountScript.Of(15)).Count);
    }

    [Theory]
    [InlineData(37, 57)]
    [InlineData(-30, 90)]
    [InlineData(180, 0)]
    public void Read_HomeMoved_CountsGoOnFromThere(int moved, int expected)
    {
        IncrementalFeedback feedback = Feedback(Counter(8, 100, home: 0));
        Assert.Equal(0, Read(feedback, CountScript.Of(0)).Count);
        Assert.Equal(20, Read(feedback, CountScript.Of(20)).Count);
        feedback.MoveHome(moved);
        Assert.Equal(expected, Read(feedback, CountScript.Of(20)).Count);
        Assert.Equal((expected + 5) % 100, Read(feedback, CountScript.Of(25)).Count);
    }

    // Whatever the counter's width, resolution and start, the place is where the shaft turned to from home.
    [Fact]
    public void Read_AnyTravel_IsWhereTheShaftIs() =>
        Gen.Select(Gen.Int[8, 32], Gen.Int[3, 3000], Gen.Int[0, 99], Gen.UInt, Gen.Int[-127, 127].Array[1, 60]).Sample((bits, perRevolution, home, start, steps) =>
        {
            long range = 1L << bits;
            long counter = start % range;
            long travel = 0;
            IncrementalFeedback feedback = Feedback(Counter(bits, perRevolution, home));
            int count = Read(feedback, CountScript.Of(counter)).Count;
            foreach (int step in steps)
            {
                travel += step;
                counter = (counter + step + range) % range;
                count = Read(feedback, CountScript.Of(counter)).Count;
            }

            double place = home + ((double)travel * 100 / perRevolution);
            return Math.Abs(new Ring(100).Difference(count, place)) <= 0.5 + 1e-9;
        }, threads: 1); // the script is shared

    private static CounterDescription Counter(int bits, int perRevolution, int home) =>
        new() { Bits = bits, CountsPerRevolution = perRevolution, HomeCount = home };

    private IncrementalFeedback Feedback(CounterDescription counter) =>
        new(_source, counter, new Ring(counter.CountsPerRevolution == 3200 ? 800 : 100), () => true);

    private int[] Counts(CounterDescription counter, params int[] values)
    {
        IncrementalFeedback feedback = Feedback(counter);
        return [.. values.Select(v => Read(feedback, CountScript.Of(v)).Count)];
    }

    private FeedbackReading Read(IncrementalFeedback feedback, CountReading reading)
    {
        _source.Next = reading;
        return feedback.ReadAsync(CancellationToken.None).AsTask().GetAwaiter().GetResult();
    }
}

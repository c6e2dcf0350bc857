using Bench.Analysis.Motion;
using Bench.Model.Instruments;
using Bench.Model.Traces;
using CsCheck;

namespace Bench.Tests.Analysis.Motion;

// The oracle is a plain loop over the samples.
public class MoveReadingsTests
{
    private static readonly Gen<double> Number = Gen.Frequency(
        (12, Gen.Double[0, 30]), (3, Gen.Const(double.NaN)), (1, Gen.OneOf(Gen.Const(double.PositiveInfinity), Gen.Const(double.NegativeInfinity), Gen.Const(1e10), Gen.Const(-2e9), Gen.Const(-0.0))));

    private static readonly Gen<Sample> AnySample = Gen.Select(
        Gen.Frequency((30, Gen.Double[0, 10]), (1, Gen.Const(double.NaN)), (1, Gen.Const(double.PositiveInfinity))),
        Gen.Enum<DriveState>(),
        Gen.Frequency((6, Gen.Const(FeedbackStatus.NotSampled)), (6, Gen.Const(FeedbackStatus.Ok)), (1, Gen.Enum<FeedbackStatus>())),
        Gen.Int[0, 799],
        Number,
        Number,
        Gen.Enum<IndexState>()).Select((t, drive, feedback, count, current, voltage, index) =>
            new Sample(t, drive, feedback, feedback == FeedbackStatus.Ok ? count : -1, current, voltage, index));

    private static readonly Gen<Sample[]> Samples = Gen.Select(AnySample.Array[0, 700], Gen.Bool).Select((samples, inOrder) =>
        inOrder ? samples.OrderBy(s => s.TimeS).ToArray() : samples);

    [Fact]
    public void Meters_AnySamples_AreTheRowsThatCanBeReadings() =>
        Samples.Sample(samples =>
        {
            Sample[] rows = [.. samples.Where(IsRow)];
            MoveReadings readings = Taken(samples);

            Assert.Equal(rows.Select(s => s.TimeS), readings.Meters.Times.ToArray());
            Assert.Equal(rows.Select(s => s.CurrentA), readings.Meters.Currents.ToArray());
            Assert.Equal(rows.Select(s => s.VoltageV), readings.Meters.Voltages.ToArray());
            Assert.Equal(rows.Select(s => (byte)s.Index), readings.Meters.Index.ToArray());
        });

    [Fact]
    public void Positions_AnySamples_AreTheCountsLaterThanTheOneBefore() =>
        Samples.Sample(samples =>
        {
            List<(double TimeS, int Place, int Failed)> expected = [];
            int failed = 0;
            foreach (Sample s in samples.Where(s => s.Feedback != FeedbackStatus.NotSampled))
            {
                if (!s.HasCount || !double.IsFinite(s.TimeS))
                {
                    failed++;
                }
                else if (expected.Count == 0 || s.TimeS > expected[^1].TimeS)
                {
                    expected.Add((s.TimeS, s.Count, failed));
                    failed = 0;
                }
            }

            MoveReadings readings = Taken(samples);
            Assert.Equal(expected.Select(e => e.TimeS), readings.Times.ToArray());
            Assert.Equal(expected.Select(e => e.Place), readings.Places.ToArray());
            Assert.Equal(expected.Select(e => e.Failed), readings.FailedBefore.ToArray());
            Assert.Equal(samples.Any(s => s.Feedback > FeedbackStatus.Ok), readings.AnyLost);
            Assert.Equal(samples.Count(s => s.Feedback != FeedbackStatus.NotSampled && s.TimeS is >= 2 and <= 8), readings.AttemptsOn);
        });

    // Times between readings may then be taken from the columns.
    [Fact]
    public void Plain_AnySamples_IsWhetherNothingWasLeftOutAndAllIsInOrder() =>
        Gen.OneOf(Samples, Orderly).Sample(samples =>
        {
            Sample[] rows = [.. samples.Where(IsRow)], counts = [.. samples.Where(s => s.HasCount)];
            bool plain = samples.All(s => IsRow(s) || !s.HasMeters)
                && rows.Zip(rows.Skip(1)).All(p => p.First.TimeS <= p.Second.TimeS)
                && counts.All(s => double.IsFinite(s.TimeS)) && counts.Zip(counts.Skip(1)).All(p => p.First.TimeS < p.Second.TimeS);

            Assert.Equal(plain, Taken(samples).Plain);
        });

    private static Gen<Sample[]> Orderly => Samples.Select(samples => samples.Select((s, i) => s with
    {
        TimeS = i / 64.0,
        CurrentA = Math.Abs(s.CurrentA) < 100 ? s.CurrentA : double.NaN,
        VoltageV = 24,
    }).ToArray());

    private static bool IsRow(Sample s) => double.IsFinite(s.TimeS) && Math.Abs(s.CurrentA) <= 1e9 && Math.Abs(s.VoltageV) <= 1e9;

    private static MoveReadings Taken(Sample[] samples)
    {
        MoveReadings readings = new();
        readings.Begin(samples.Length, 2, 8, counts: true);
        readings.Add(samples);
        return readings;
    }
}

using Bench.Analysis.Feedback;
using Bench.Model.Instruments;
using Bench.Model.Traces;
using CsCheck;

namespace Bench.Tests.Analysis.Feedback;

public class LostReadingsTallyTests
{
    private static readonly Gen<Sample[]> Samples = Gen.Select(Gen.Double[0.001, 0.2], Gen.Frequency((12, 1), (6, 0), (2, 2), (1, 3), (1, 4), (1, 5), (1, 6)), Gen.Bool)
        .Select((gap, status, meters) => (gap, status, meters)).Array[0, 120]
        .Select(rows =>
        {
            double at = 0;
            return rows.Select(r => new Sample(
                at += r.gap, DriveState.Up, (FeedbackStatus)r.status, r.status == 1 ? 5 : -1, r.meters ? 0.2 : double.NaN, r.meters ? 24 : double.NaN, IndexState.NotSampled)).ToArray();
        });

    // One by one, samples in which nothing was lost are not passed over together.
    [Fact]
    public void Total_SamplesInBlocks_IsThatOfOneByOne() =>
        Gen.Select(Samples, Gen.Int[1, 40]).Sample((samples, block) =>
        {
            LostReadingsTally blocks = new(null), single = new(double.MinValue);
            foreach (Sample[] some in samples.Chunk(block))
            {
                blocks.Add(some);
            }

            foreach (Sample sample in samples)
            {
                single.Add([sample]);
            }

            Assert.Equal(single.Total(), blocks.Total());
        }, iter: 2000);
}

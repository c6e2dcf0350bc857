using Bench.Analysis.Readings;
using Bench.Analysis.Supply;
using Bench.Model.Instruments;
using Bench.Model.Traces;
using CsCheck;

namespace Bench.Tests.Analysis.Supply;

public class RestReadingsTests
{
    private static readonly Gen<Sample[]> Samples = Gen.Select(Gen.Double[0.01, 0.2], Gen.Bool, Gen.Int[0, 12])
        .Select((gap, meters, turn) => (gap, meters, turn)).Array[0, 150]
        .Select(rows =>
        {
            double at = 0;
            bool on = false;
            return rows.Select(r =>
            {
                on ^= r.turn == 0;
                return new Sample(
                    at += r.gap, on ? DriveState.Down : DriveState.Off, r.meters ? FeedbackStatus.NotSampled : FeedbackStatus.Ok, r.meters ? -1 : 7,
                    r.meters ? at : double.NaN, r.meters ? 24 : double.NaN, IndexState.NotSampled);
            }).ToArray();
        });

    [Fact]
    public void Add_SamplesInBlocks_GathersWhatLiesLongEnoughAfterTheDriveWasOn() =>
        Gen.Select(Samples, Gen.Int[1, 40], Gen.Double[0, 5]).Sample((samples, block, firstOnS) =>
        {
            RestReadings rest = new();
            rest.Add([], new SampleMarks([]), firstOnS);
            foreach (Sample[] some in samples.Chunk(block))
            {
                rest.Add(some, new SampleMarks(some), firstOnS);
            }

            double LastOnS(Sample s) => samples.Where(x => x.TimeS <= s.TimeS && x.Drive != DriveState.Off).Select(x => x.TimeS).DefaultIfEmpty(double.NegativeInfinity).Max();
            Sample[] resting = [.. samples.Where(s => s.TimeS - LastOnS(s) >= 0.3)];
            Assert.Equal(resting.Where(s => s.HasMeters).Select(s => s.CurrentA), rest.CurrentsA);
            Assert.Equal(resting.Count(s => s.HasCount && s.TimeS < firstOnS), rest.CountsBeforeMotion.Count);
        }, iter: 1000);
}

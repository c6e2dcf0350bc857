using Bench.Model.Profiles;
using Bench.Simulation.Chance;
using Bench.Simulation.Conditions;
using Bench.Simulation.Mismatch;
using Bench.Simulation.Units;

namespace Bench.Tests.Simulation.Mismatch;

public class ModelMismatchTests
{
    private static readonly Profile Family = Families.Diverter;

    private static Installation Sound => Installation.Of(NominalUnit.Of(Family));

    [Fact]
    public void Draw_ManySeeds_DrawsEachVariationHalfTheTime()
    {
        ModelMismatch[] drawn = [.. Enumerable.Range(1, 1000).Select(seed => ModelMismatch.Draw((ulong)seed))];

        // Three standard deviations of a fair coin: 1.5 / sqrt(1000).
        Assert.All(Enum.GetValues<Variation>(), v => Assert.InRange(drawn.Count(d => d.Variations.Contains(v)) / 1000.0, 0.45, 0.55));
        Assert.Equal(drawn[7].Variations, ModelMismatch.Draw(8).Variations);
    }

    [Fact]
    public void Apply_WithoutVariations_LeavesTheInstallationAsItIs()
    {
        Installation sound = Sound;
        Assert.Same(sound, new ModelMismatch([], 3).Apply(sound));
    }

    [Fact]
    public void Apply_TwoVariationsOfTheRing_KeepsBoth()
    {
        RingGeometry geometry = new ModelMismatch([Variation.EccentricRing, Variation.UnevenSensors], 3).Apply(Sound).Unit.Encoder.Geometry!;
        Assert.True(geometry.OncePerTurnCounts > 0);
        Assert.Equal(Family.Ring.Counts, geometry.EdgeOffsets.Count);
        Assert.All(geometry.EdgeOffsets, e => Assert.InRange(e, -0.15, 0.15));
    }

    // A variation is no fault: what it does to running current and speed stays inside the family's own limits.
    [Theory]
    [InlineData(Variation.FrictionLaw)]
    [InlineData(Variation.FrictionWaves)]
    [InlineData(Variation.EccentricRing)]
    [InlineData(Variation.UnevenSensors)]
    [InlineData(Variation.Index)]
    [InlineData(Variation.Play)]
    [InlineData(Variation.LatchedCount)]
    [InlineData(Variation.Meter)]
    [InlineData(Variation.Supply)]
    [InlineData(Variation.Warming)]
    public void Apply_EachVariation_StillTurnsLikeItsFamily(Variation variation)
    {
        foreach (ulong seed in new ulong[] { 1, 2, 3 })
        {
            Installation varied = new ModelMismatch([variation], seed).Apply(Sound);
            Assert.NotEqual(Sound, varied);
            Plant plant = new(varied.Unit, varied.Supply, RelayDesign.Usual, 0.0, new SeededRandom(1), varied.Meters.WindowS);
            plant.CommandUp(true);
            plant.AdvanceTo(0.5);
            double from = plant.EncoderPosition;
            double current = 0.0;
            for (int ms = 1; ms <= 3000; ms++)
            {
                plant.AdvanceTo(0.5 + (ms / 1000.0));
                current += plant.SupplyCurrentA / 3000.0;
            }

            Assert.InRange((plant.EncoderPosition - from) / 3.0, 220.0, 310.0);
            Assert.InRange(current, 0.8 * Family.Electrical.RunningCurrentA, 1.2 * Family.Electrical.RunningCurrentA);
        }
    }

    [Fact]
    public void Turnarounds_ManyAnswers_StayWithinTheTimeOutAndAreAtTimesLong()
    {
        Turnarounds later = new ModelMismatch([Variation.Turnaround], 5).Turnarounds(TimeProvider.System)!;
        double[] ms = [.. Enumerable.Range(0, 20_000).Select(_ => later.Next().TotalMilliseconds)];
        Assert.All(ms, m => Assert.InRange(m, 0.0, 27.0));
        Assert.InRange(ms.Count(m => m > 5.0), 10, 130);
    }
}

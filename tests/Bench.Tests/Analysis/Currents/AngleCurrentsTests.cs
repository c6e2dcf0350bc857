using Bench.Analysis.Currents;
using Bench.Analysis.Motion;
using Bench.Model.Features;
using Bench.Tests.Analysis.Synthetic;
using CsCheck;

namespace Bench.Tests.Analysis.Currents;

public class AngleCurrentsTests
{
    // Whole arcs at once, against row by row.
    [Fact]
    public void Profile_AnyMove_IsThatOfEveryRowInItsBin() =>
        Gen.Select(TurningUnit.Any, Gen.Int[0, 799]).Sample((unit, from) =>
        {
            AngleCurrents angles = new(Diverter.Profile.Ring, from);
            angles.Add(unit.Course, unit.Steady);
            AngleProfile got = angles.Profile();
            List<double>[] bins = [.. got.Samples.Select(_ => new List<double>())];
            MeterRows rows = unit.Steady;
            for (int i = 0; i < rows.Length; i++)
            {
                if (unit.Course.Between(rows.Times[i]) is double at)
                {
                    bins[Math.Min((int)(Diverter.Profile.Ring.Place(at - got.FirstCount) / got.BinCounts), bins.Length - 1)].Add(rows.Currents[i]);
                }
            }

            Assert.Equal(bins.Select(b => b.Count), got.Samples);
            Assert.All(bins.Zip(got.MeanA).Where(b => b.First.Count > 0), b => Assert.Equal(b.First.Average(), b.Second!.Value, 1e-12));
        }, iter: 200);

    [Fact]
    public void LastInOrder_AnyRowsAndInstant_IsTheLastUpToIt() =>
        Gen.Select(Gen.Double[0, 1].Array[1, 200], Gen.Bool, Gen.Int[0, 199], Gen.Double[0, 1.1]).Sample((times, sorted, from, toS) =>
        {
            from = Math.Min(from, times.Length - 1);
            double[] t = sorted ? [.. times.Order()] : times;
            toS = Math.Max(toS, t[from]);
            MeterRows rows = new(t, t, t, new byte[t.Length], rising: sorted);
            int last = from;
            while (last + 1 < t.Length && t[last + 1] <= toS && t[last + 1] >= t[last])
            {
                last++;
            }

            Assert.Equal(last, rows.LastInOrder(from, toS));
        }, iter: 500);
}

using Bench.Analysis.Statistics;
using CsCheck;

namespace Bench.Tests.Analysis.Statistics;

// The oracle is a plain loop.
public class RisingTests
{
    [Fact]
    public void IsRising_AnyValues_IsWhetherNoneLiesBelowTheOneBefore() =>
        Gen.Select(Gen.Int[0, 9].Array[0, 40], Gen.Int[0, 40], Gen.Bool).Sample((v, fall, falls) =>
        {
            double[] values = [.. v.Order().Select(i => (double)i)];
            if (falls && fall < values.Length)
            {
                values[fall] = v[fall];
            }

            Assert.Equal(values.Zip(values.Skip(1)).All(p => p.First <= p.Second), Rising.IsRising(values));
        });
}

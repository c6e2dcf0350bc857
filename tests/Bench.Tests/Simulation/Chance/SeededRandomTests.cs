using Bench.Simulation.Chance;

namespace Bench.Tests.Simulation.Chance;

public class SeededRandomTests
{
    // SplitMix64 from seed 1234567: the first five outputs, Rosetta Code, "Pseudo-random numbers/Splitmix64".
    [Fact]
    public void NextBits_PublishedSeed_GivesPublishedSequence()
    {
        SeededRandom random = new(1234567);
        ulong[] drawn = [.. Enumerable.Range(0, 5).Select(_ => random.NextBits())];
        Assert.Equal(
            [6457827717110365317, 3203168211198807973, 9817491932198370423, 4593380528125082431, 16408922859458223821],
            drawn);
    }

    [Fact]
    public void Normal_ManyDraws_HaveMeanZeroAndVarianceOne()
    {
        SeededRandom random = new(5);
        double[] x = [.. Enumerable.Range(0, 100_000).Select(_ => random.Normal())];
        double mean = x.Average();
        Assert.InRange(mean, -0.015, 0.015);
        Assert.InRange(x.Sum(v => (v - mean) * (v - mean)) / x.Length, 0.98, 1.02);
    }

    [Fact]
    public void Exponential_ManyDraws_HaveTheMeanAsked()
    {
        SeededRandom random = new(6);
        Assert.InRange(Enumerable.Range(0, 100_000).Average(_ => random.Exponential(8.0)), 7.85, 8.15);
    }

    [Fact]
    public void Fork_WhateverWasDrawnBefore_GivesTheSameSequence()
    {
        SeededRandom a = new(9);
        SeededRandom b = new(9);
        b.NextBits();
        Assert.Equal(a.Fork("meter").NextBits(), b.Fork("meter").NextBits());
        Assert.NotEqual(a.Fork("meter").NextBits(), a.Fork("link").NextBits());
    }
}

using System.Text.Json;
using Bench.Analysis.Extraction;
using Bench.Model.Features;
using Bench.Model.Instruments;
using Bench.Model.Moves;
using Bench.Model.Profiles;
using Bench.Model.Serialization;
using Bench.Model.Traces;
using Bench.Tests.Analysis.Synthetic;
using CsCheck;

namespace Bench.Tests.Analysis.Extraction;

/// <summary>Every feature extractor on traces that something is wrong with: no exception, no NaN, no number made up.</summary>
public class BadTracesTests
{
    private static readonly Profile Everything = Diverter.Profile with
    {
        Limits = [.. Diverter.Profile.Limits, .. FeatureCatalog.All.Where(d => d.OnlyWhereNamed)
            .Select(d => new Limit { Feature = d.Name, Upper = 1000, Rule = DecisionRule.Simple, Severity = Severity.Note })],
    };

    // Times are cut to 2^-20 s, so that the clock's zero can be moved without rounding.
    private static readonly SyntheticUnit Drawn = new SyntheticUnit(Diverter.Profile, 21).WholeRoutine(16);

    private static readonly (Trace Trace, List<Move> Moves) Good = (Cut(Drawn.Trace), Drawn.Moves.ConvertAll(m => m with
    {
        DriveOnS = Cut(m.DriveOnS),
        DriveOffS = Cut(m.DriveOffS),
        SettledS = Cut(m.SettledS),
    }));

    private static readonly Dictionary<string, Func<Sample[], Random, IEnumerable<Sample>>> Damages = new()
    {
        ["empty"] = (_, _) => [],
        ["one sample"] = (s, _) => s.Take(1),
        ["two samples"] = (s, _) => s.Take(2),
        ["constant"] = (s, _) => s.Select(x => x with { Count = x.HasCount ? 100 : -1, CurrentA = x.HasMeters ? 0.2 : double.NaN, VoltageV = x.HasMeters ? 24 : double.NaN }),
        ["at one instant"] = (s, _) => s.Select(x => x with { TimeS = s[0].TimeS }),
        ["not a number"] = (s, r) => s.Select(x => r.Next(3) == 0 ? x with { CurrentA = double.NaN, VoltageV = double.NaN } : x),
        ["all not a number"] = (s, _) => s.Select(x => x with { CurrentA = double.NaN, VoltageV = double.NaN, Feedback = FeedbackStatus.Garbled, Count = -1 }),
        ["voltage alone not a number"] = (s, _) => s.Select(x => x with { VoltageV = double.NaN }),
        ["infinite"] = (s, r) => s.Select(x => x.HasMeters && r.Next(3) == 0 ? x with { CurrentA = double.PositiveInfinity, VoltageV = double.NegativeInfinity } : x),
        ["time not a number"] = (s, r) => s.Select(x => r.Next(5) == 0 ? x with { TimeS = double.NaN } : x),
        ["out of order"] = (s, r) => s.OrderBy(_ => r.Next()),
        ["backwards"] = (s, _) => s.Reverse(),
        ["duplicated"] = (s, _) => s.SelectMany(x => new[] { x, x }),
        ["gapped"] = (s, r) => s.Where(_ => r.Next(10) == 0),
        ["one long gap"] = (s, _) => s.Where((_, i) => i < s.Length / 4 || i > 3 * s.Length / 4),
        ["saturated"] = (s, _) => s.Select(x => x.HasMeters ? x with { CurrentA = 1e6, VoltageV = 1e6 } : x with { Count = x.HasCount ? 799 : -1 }),
        ["negative"] = (s, _) => s.Select(x => x with { CurrentA = -x.CurrentA, VoltageV = -x.VoltageV }),
        ["vast"] = (s, _) => s.Select(x => x with { CurrentA = x.CurrentA * 1e300, VoltageV = x.VoltageV * 1e300 }),
        ["wrapped"] = (s, _) => s.Select((x, i) => x.HasCount ? x with { Count = (x.Count + (400 * (i % 2))) % 800 } : x),
        ["off the ring"] = (s, r) => s.Select(x => x.HasCount && r.Next(4) == 0 ? x with { Count = 65535 } : x),
        ["random counts"] = (s, r) => s.Select(x => x.HasCount ? x with { Count = r.Next(800) } : x),
        ["index flutters"] = (s, r) => s.Select(x => x.Index == IndexState.NotSampled ? x : x with { Index = (IndexState)r.Next(1, 3) }),
        ["no position"] = (s, _) => s.Where(x => x.Feedback == FeedbackStatus.NotSampled),
        ["no meters"] = (s, _) => s.Where(x => !x.HasMeters),
    };

    public static TheoryData<string> Names => [.. Damages.Keys];

    // What a damage takes away can't be assessed any more; a number here would be made up.
    private static readonly Dictionary<string, string[]> Gone = new()
    {
        ["empty"] = ["current.running_a", "speed.running_counts_per_s", "landing.error_counts", "landing.accuracy_counts", "index.reversal_counts", "coast.counts", "energy.per_revolution_j", "winding.resistance_ohm", "ring.dead_counts", "current.step_a", "landing.step_counts", "motor.friction_nm"],
        ["one sample"] = ["current.running_a", "speed.running_counts_per_s", "landing.error_counts", "index.reversal_counts", "coast.counts", "winding.resistance_ohm", "current.tight_spot_ratio"],
        ["all not a number"] = ["current.running_a", "speed.running_counts_per_s", "landing.error_counts", "bench.supply_open_v", "current.off_a", "energy.per_revolution_j"],
        ["constant"] = ["speed.running_counts_per_s", "landing.error_counts", "index.reversal_counts", "coast.counts"],
        ["at one instant"] = ["speed.running_counts_per_s", "coast.counts"],
        ["no position"] = ["speed.running_counts_per_s", "landing.error_counts", "coast.counts", "feedback.silent_share", "count.jump_counts"],
        ["no meters"] = ["current.running_a", "bench.supply_open_v", "current.off_a", "winding.resistance_ohm", "current.noise_a", "current.step_a"],
        ["voltage alone not a number"] = ["bench.supply_open_v", "energy.per_revolution_j", "winding.resistance_ohm"],
    };

    [Theory]
    [MemberData(nameof(Names))]
    public void Complete_DamagedTrace_GivesFiniteNumbersOrReasons(string damage)
    {
        RunFeatures features = Extract(damage, 3, 1);

        AssertSound(features);
        foreach (string name in Gone.GetValueOrDefault(damage, []))
        {
            Assert.All(features.Features.Where(f => f.Name == name), f => Assert.False(f.IsAssessed, $"{damage}: {name} is {f.Value}"));
        }
    }

    // Any damage to any part of the moves, two of them one after the other.
    [Fact]
    public void Complete_DamagesTogether_GiveFiniteNumbersOrReasons() =>
        Gen.Select(Gen.Int[0, Damages.Count - 1], Gen.Int[0, Damages.Count - 1], Gen.Int[0, 1000], Gen.Int[1, 4]).Sample(
            (first, second, seed, every) =>
            {
                (Trace trace, List<Move> moves) = Damaged(Damages.Keys.ElementAt(first), seed, every, Good.Trace, Good.Moves);
                (trace, moves) = Damaged(Damages.Keys.ElementAt(second), seed + 1, every + 1, trace, moves);
                AssertSound(Extract(trace, moves));
            },
            iter: 40);

    // Samples before and after the moves, and the clock's zero, are none of the moves' business.
    [Fact]
    public void AddMove_TraceShiftedInTimeAndPlace_GivesTheSameFeatures()
    {
        const int before = 1000;
        const double later = 4096;
        Trace shifted = new();
        for (int i = 0; i < before; i++)
        {
            shifted.Add(new Sample(i, DriveState.Off, FeedbackStatus.Silent, -1, double.NaN, double.NaN, IndexState.NotSampled));
        }

        foreach (Sample s in Good.Trace.All)
        {
            shifted.Add(s with { TimeS = s.TimeS + later });
        }

        RunExtraction there = new(Everything, Diverter.Bench);
        RunExtraction here = new(Everything, Diverter.Bench);
        foreach (Move m in Good.Moves)
        {
            MoveFeatures expected = here.AddMove(Good.Trace, m);
            MoveFeatures got = there.AddMove(shifted, m with
            {
                FirstSample = m.FirstSample + before,
                DriveOnS = m.DriveOnS + later,
                DriveOffS = m.DriveOffS + later,
                SettledS = m.SettledS + later,
            });
            Assert.Equal(expected.LandingErrorCounts, got.LandingErrorCounts);
            Assert.Equal(expected.RunningCurrentA, got.RunningCurrentA);
            Assert.Equal(expected.SpeedCountsPerS ?? 0, got.SpeedCountsPerS ?? 0, 1e-6);
            Assert.Equal(expected.UnitErrorCounts ?? 0, got.UnitErrorCounts ?? 0, 1e-6);
            Assert.Equal(expected.JumpCounts ?? 0, got.JumpCounts ?? 0, 1e-6);
            Assert.Equal(expected.EnergyJ ?? 0, got.EnergyJ ?? 0, 1e-6);
        }
    }

    private static RunFeatures Extract(string damage, int seed, int every)
    {
        (Trace trace, List<Move> moves) = Damaged(damage, seed, every, Good.Trace, Good.Moves);
        return Extract(trace, moves);
    }

    private static RunFeatures Extract(Trace trace, List<Move> moves)
    {
        RunExtraction extraction = new(Everything, Diverter.Bench);
        foreach (Move move in moves)
        {
            extraction.AddMove(trace, move);
            Assert.NotNull(extraction.Evidence.Because);
        }

        return extraction.Complete(trace, SyntheticRun.Links(), SyntheticRun.Today);
    }

    // Every n-th move damaged, and all that lies between the moves when it is every one.
    private static (Trace Trace, List<Move> Moves) Damaged(string damage, int seed, int every, Trace good, List<Move> moves)
    {
        Random random = new(seed);
        Trace trace = new();
        List<Move> moved = [];
        int from = 0;
        foreach (Move move in moves)
        {
            Sample[] between = good.Slice(from, Math.Max(0, move.FirstSample - from)).ToArray();
            Add(trace, every == 1 && between.Length > 0 ? Damages[damage](between, random) : between);
            Sample[] slice = good.Slice(move.FirstSample, move.SampleCount).ToArray();
            int first = trace.Count;
            Add(trace, moved.Count % every == 0 && slice.Length > 0 ? Damages[damage](slice, random) : slice);
            moved.Add(move with { FirstSample = first, SampleCount = trace.Count - first });
            from = move.FirstSample + move.SampleCount;
        }

        return (trace, moved);
    }

    private static double Cut(double timeS) => Math.Floor(timeS * 1048576) / 1048576;

    private static Trace Cut(Trace trace)
    {
        Trace cut = new();
        foreach (Sample s in trace.All)
        {
            cut.Add(s with { TimeS = Cut(s.TimeS) });
        }

        return cut;
    }

    private static void Add(Trace trace, IEnumerable<Sample> samples)
    {
        foreach (Sample s in samples)
        {
            trace.Add(s);
        }
    }

    private static void AssertSound(RunFeatures features)
    {
        Assert.All(FeatureCatalog.All, d => Assert.Contains(features.Features, f => f.Name == d.Name));
        foreach (Feature f in features.Features)
        {
            Assert.True(f.Value is null ? f.NotAssessableBecause is { Length: > 0 } : double.IsFinite(f.Value.Value), f.ToString());
            Assert.True(f.Value is null || f is { StandardUncertainty: >= 0 and < double.PositiveInfinity }, f.ToString());
        }

        // JSON has no NaN: this fails on one anywhere, in moves, ring or angle profile.
        Assert.NotEmpty(JsonSerializer.Serialize(features, BenchJson.Compact));
    }
}

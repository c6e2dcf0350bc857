using System.Globalization;
using System.Runtime.CompilerServices;
using Bench.Analysis.Extraction;
using Bench.Model.Features;
using Bench.Model.Moves;
using Bench.Model.Traces;
using Bench.Tests.Analysis.Synthetic;

namespace Bench.Tests.Analysis.Extraction;

/// <summary>
/// What extraction gave before it was made fast: numbers of Golden/*.txt, one a line, to 1e-9 of their size. A change of
/// method renews them with BENCH_RENEW_GOLDEN=1; a change of speed must not.
/// </summary>
public class GoldenFeaturesTests
{
    private const double Tolerance = 1e-9;

    private static readonly Dictionary<string, Func<SyntheticUnit>> Polled = new(StringComparer.Ordinal)
    {
        ["healthy"] = () => new SyntheticUnit(Diverter.Profile, 1).WholeRoutine(20),
        ["dead-and-dirty"] = () => new SyntheticUnit(Diverter.Profile, 2) { Dead = [37, 333], Dirty = [.. Enumerable.Range(500, 24)] }.WholeRoutine(20),
        ["slipping"] = () => new SyntheticUnit(Diverter.Profile, 3) { Lead = (move, sign) => (move > 20 ? 9 : 0) + sign, StartCount = 790 }.WholeRoutine(20),
        ["silent"] = () => new SyntheticUnit(Diverter.Profile, 4) { FeedbackFails = t => t % 11 < 0.06, CurrentGone = t => t % 17 < 0.15 }.WholeRoutine(20),
        ["tight"] = () => new SyntheticUnit(Diverter.Profile, 5) { Friction = p => Math.Abs(p - 300) < 20 ? 0.35 : 0.22, SourceOhm = 1.5 }.WholeRoutine(20),
        ["locked"] = () => new SyntheticUnit(Diverter.Profile, 6) { Locked = true }.WholeRoutine(0),
    };

    public static TheoryData<string> Names => [.. Polled.Keys];

    [Theory]
    [MemberData(nameof(Names))]
    public void Complete_PolledRun_GivesTheGoldenFeatures(string name)
    {
        SyntheticUnit unit = Polled[name]();
        Check(name, unit.Trace, unit.Moves);
    }

    [Fact]
    public void Complete_StreamedRun_GivesTheGoldenFeatures()
    {
        StreamedTrace streamed = new(Diverter.Profile, 10, 7);
        Check("streamed", streamed.Trace, streamed.Moves);
    }

    [Fact]
    public void Complete_RunFedMoveByMove_GivesTheGoldenFeatures()
    {
        StreamedTrace streamed = new(Diverter.Profile, 10, 7);
        RunExtraction extraction = new(Diverter.Profile, Diverter.Bench);
        int done = 0;
        foreach (Move move in streamed.Moves)
        {
            extraction.AddMove(
                streamed.Trace.Slice(done, move.FirstSample - done), streamed.Trace.Slice(move.FirstSample, move.SampleCount), move with { FirstSample = 0 });
            done = move.FirstSample + move.SampleCount;
        }

        Check("streamed", extraction.Complete(streamed.Trace.All[done..], SyntheticRun.Links(), SyntheticRun.Today));
    }

    private static void Check(string name, Trace trace, List<Move> moves)
    {
        RunExtraction extraction = new(Diverter.Profile, Diverter.Bench);
        moves.ForEach(m => extraction.AddMove(trace, m));
        Check(name, extraction.Complete(trace, SyntheticRun.Links(), SyntheticRun.Today));
    }

    private static void Check(string name, RunFeatures features)
    {
        List<(string Name, double? Value)> got = [.. Numbers(features)];
        string file = Path.Combine(Folder(), name + ".txt");
        if (Environment.GetEnvironmentVariable("BENCH_RENEW_GOLDEN") == "1")
        {
            File.WriteAllLines(file, got.Select(g => string.Create(CultureInfo.InvariantCulture, $"{g.Name} {(g.Value is double v ? v.ToString("R", CultureInfo.InvariantCulture) : "-")}")));
        }

        string[] golden = File.ReadAllLines(file);
        Assert.Equal(golden.Length, got.Count);
        foreach ((string line, (string title, double? value)) in golden.Zip(got))
        {
            string[] parts = line.Split(' ');
            Assert.Equal(parts[0], title);
            if (parts[1] == "-")
            {
                Assert.True(value is null, line);
                continue;
            }

            double expected = double.Parse(parts[1], CultureInfo.InvariantCulture);
            Assert.True(value is double v && Math.Abs(v - expected) <= Tolerance * Math.Max(Math.Abs(expected), 1e-3), $"{line}, got {value:R}");
        }
    }

    private static IEnumerable<(string Name, double? Value)> Numbers(RunFeatures run)
    {
        foreach (Feature f in run.Features)
        {
            yield return (f.Name, f.Value);
            yield return (f.Name + ":u", f.StandardUncertainty);
            yield return (f.Name + ":n", f.Observations);
        }

        foreach (MoveFeatures m in run.Moves.Where(m => m.Number % 4 == 1))
        {
            string at = FormattableString.Invariant($"move-{m.Number}:");
            yield return (at + "landing", m.LandingCount);
            yield return (at + "error", m.UnitErrorCounts);
            yield return (at + "coast", m.CoastCounts);
            yield return (at + "speed", m.SpeedCountsPerS);
            yield return (at + "running", m.RunningCurrentA);
            yield return (at + "noise", m.CurrentNoiseA);
            yield return (at + "peak", m.PeakCurrentA);
            yield return (at + "loaded", m.LoadedVoltageV);
            yield return (at + "energy", m.EnergyJ);
            yield return (at + "interruptions", m.CurrentInterruptions);
            yield return (at + "gaps", m.MeterGaps);
            yield return (at + "dropouts", m.FeedbackDropouts);
            yield return (at + "jump", m.JumpCounts);
            yield return (at + "index", m.IndexCounts.Count == 0 ? null : m.IndexCounts.Sum());
            yield return (at + "passed", m.Passed ? 1 : 0);
        }

        foreach ((double? mean, int bin) in run.Current.MeanA.Select((v, i) => (v, i)).Where(b => b.i % 8 == 0))
        {
            yield return (FormattableString.Invariant($"bin-{bin}:mean"), mean);
            yield return (FormattableString.Invariant($"bin-{bin}:n"), run.Current.Samples[bin]);
        }

        yield return ("ring:passes", run.Ring.Passes.Sum());
        yield return ("ring:sighted", run.Ring.Sightings.Sum());
        yield return ("ring:expected", run.Ring.Expected.Sum());
        yield return ("ring:coverage", run.Ring.Coverage);
        yield return ("rate", run.PositionRateHz);
        yield return ("interval:median", run.Sampling?.Position.MedianIntervalS);
        yield return ("interval:p99", run.Sampling?.Position.P99IntervalS);
        yield return ("interval:worst", run.Sampling?.Position.WorstIntervalS);
        yield return ("meters:median", run.Sampling?.Meters.MedianIntervalS);
        yield return ("meters:p99", run.Sampling?.Meters.P99IntervalS);
        yield return ("meters:n", run.Sampling?.Meters.Readings);
    }

    private static string Folder([CallerFilePath] string file = "") => Path.Combine(Path.GetDirectoryName(file)!, "Golden");
}

using Bench.Analysis.Judging;
using Bench.Model.Returns;
using Bench.Model.Features;
using Bench.Tests.Analysis.Synthetic;

namespace Bench.Tests.Analysis.Extraction;

public class ScratchTests(ITestOutputHelper output)
{
    [Fact]
    public void Healthy()
    {
        string[] names = ["index.reversal_counts", "index.shift_counts", "index.step_counts", "index.drift_counts_per_100_moves", "count.jump_counts", "current.tight_spot_ratio", "ring.dead_counts", "ring.weak_counts", "winding.resistance_ohm", "landing.repeatability_counts"];
        var all = names.ToDictionary(n => n, n => new List<double>());
        int held = 0;
        for (int seed = 1; seed <= 40; seed++)
        {
            var unit = new SyntheticUnit(Diverter.Profile, seed).WholeRoutine();
            var (f, e) = SyntheticRun.Extract(unit);
            foreach (string n in names) { all[n].Add(f.Value(n)); }
            var j = Judge.Decide(f, Diverter.Profile, Symptom.Intermittent);
            if (j.Disposition != Bench.Model.Judging.Disposition.Reusable) { held++; output.WriteLine(j.Reasons[0]); }
        }
        foreach (string n in names) { var v = all[n].Order().ToArray(); output.WriteLine($"{n}: min {v[0]:g4} med {v[v.Length / 2]:g4} max {v[^1]:g4}"); }
        output.WriteLine($"not reusable {held}");
    }

    [Fact]
    public void Faults()
    {
        Show("dead", new SyntheticUnit(Diverter.Profile, 2) { Dead = [310, 555] }.WholeRoutine());
        Show("dead pair", new SyntheticUnit(Diverter.Profile, 3) { Dead = [310, 311, 312] }.WholeRoutine());
        Show("dirty .3", new SyntheticUnit(Diverter.Profile, 4) { Dirty = [.. Enumerable.Range(300, 24)] }.WholeRoutine());
        Show("dirty .6", new SyntheticUnit(Diverter.Profile, 5) { Dirty = [.. Enumerable.Range(300, 24)], DirtySeen = 0.6 }.WholeRoutine());
        Show("dirty .05", new SyntheticUnit(Diverter.Profile, 6) { Dirty = [.. Enumerable.Range(300, 24)], DirtySeen = 0.05 }.WholeRoutine());
        Show("slip", new SyntheticUnit(Diverter.Profile, 7) { Lead = (m, d) => m > 40 ? 12 : 0 }.WholeRoutine());
        Show("drift", new SyntheticUnit(Diverter.Profile, 8) { Lead = (m, d) => 0.2 * m }.WholeRoutine());
        Show("play", new SyntheticUnit(Diverter.Profile, 9) { Lead = (m, d) => d * 3.5 }.WholeRoutine());
        Show("tight", new SyntheticUnit(Diverter.Profile, 10) { Friction = c => c is > 280 and < 320 ? 0.36 : 0.22 }.WholeRoutine());
        Show("dropouts", new SyntheticUnit(Diverter.Profile, 11) { FeedbackFails = t => t % 20 is > 10 and < 10.05 }.WholeRoutine());
        Show("brushes", new SyntheticUnit(Diverter.Profile, 12) { CurrentGone = t => t % 7 is > 5 and < 5.04 }.WholeRoutine());
    }

    private void Show(string name, SyntheticUnit unit)
    {
        var (f, e) = SyntheticRun.Extract(unit);
        var j = Judge.Decide(f, Diverter.Profile, Symptom.Intermittent);
        output.WriteLine($"== {name}: {j.Outcome} {j.Disposition} {j.Claim} {j.Causes[0]} | {e.Because}\n  " + string.Join("\n  ", j.Reasons.Take(6)) + "\n  > " + j.NextStep);
        output.WriteLine("  dead " + string.Join(",", f.Ring.States.Select((s, i) => (s, i)).Where(x => x.s == SensorState.Dead).Select(x => x.i)) + " weak " + string.Join(",", f.Ring.States.Select((s, i) => (s, i)).Where(x => x.s == SensorState.Weak).Select(x => x.i)) + " jump " + f.Value("count.jump_counts"));
        output.WriteLine("  failed: " + string.Join("; ", f.Moves.Where(m => m.FailedBecause is not null).Select(m => m.Number + " " + m.FailedBecause).Take(4)));
    }
}

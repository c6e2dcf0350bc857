using Bench.Analysis.Sightings;
using Bench.Cli.Output;
using Bench.Devices.Positions;
using Bench.Model.Features;
using Bench.Model.Profiles;
using Bench.Model.Serialization;
using Bench.Running.Sampling;

namespace Bench.Cli.Checking;

/// <summary>A check in words.</summary>
internal static class CheckText
{
    /// <summary>Prints it.</summary>
    public static void Print(BenchCondition found, Profile? profile, IReadOnlyList<string> mend)
    {
        foreach (CheckedDevice d in found.Devices)
        {
            Terminal.Result($"{d.Check.Device} ({(d.Check.Address > 0 ? $"address {d.Check.Address} " : "")}on {d.Check.Link}): {BenchJson.Word(d.Graded.Grade)}; {Answers(d.Check)}");
            if (d.Check.Identity is { } identity)
            {
                Terminal.Result($"  says it is: {identity}");
            }
        }

        foreach (CheckedPosition p in found.Positions)
        {
            Terminal.Result($"{p.Alone.Position}: {(p.Graded is { } g ? BenchJson.Word(g.Grade) : "not measured, its feedback does not answer")}{(p.Graded is null ? "" : $"; {Rates(p.Alone)}")}");
            if (p.Graded is not null && p.Together is { } together)
            {
                Terminal.Result(FormattableString.Invariant($"  all positions at once: {together.PositionRateHz:0} and {together.MeterRateHz:0} a second"));
            }

            if (p.Plan is { } plan)
            {
                Terminal.Result($"  {Means(plan, profile!)}");
            }
        }

        foreach (SafeStateResult s in found.Outputs)
        {
            Terminal.Result($"{s.Position}: outputs {(s.State is { } state ? $"{BenchJson.Word(state)}, read back" : "NOT READ BACK")}");
        }

        foreach (CalibrationCheck c in found.Calibrations)
        {
            Terminal.Result(FormattableString.Invariant($"{c.Position} {c.Meter}: certificate or study {c.Certificate}, due {c.DueOn:yyyy-MM-dd}{(c.Overdue ? " OVERDUE" : c.DueSoon ? $", in {c.DaysLeft} days" : "")}"));
        }

        foreach (string line in mend)
        {
            Terminal.Say($"To mend: {line}");
        }

        Terminal.Result(mend.Count == 0 ? "Nothing to mend." : found.CanRun ? "Runs can be made." : "Mend the bench before the next run.");
    }

    private static string Answers(DeviceCheck c) => c.Stream is { } s && c.Answered
        ? FormattableString.Invariant($"pushes {s.RateHz:0.00} frames a second, 99 % delivered within {s.DelayP99Ms:0.0} ms of the least delayed; {ErrorShare.Of(c.Errors, c.Reads)}")
        : c.RoundTripP50 is { } p50 && c.RoundTripP99 is { } p99
        ? FormattableString.Invariant($"round trip {p50.TotalMilliseconds:0.00} ms, 99 % within {p99.TotalMilliseconds:0.00} ms{Turnaround(c)}; {ErrorShare.Of(c.Errors, c.Reads)}")
        : c.Answered ? $"refuses ({c.Fault?.Detail})" : $"NO ANSWER to {c.Reads} reads";

    private static string Turnaround(DeviceCheck c) =>
        c.TurnaroundMs is { } ms ? FormattableString.Invariant($", of it the device {ms:0.00} ms") : "";

    private static string Rates(RehearsedPolling polling)
    {
        ReadingTimes position = polling.Times.Position;
        return FormattableString.Invariant(
            $"position {polling.PositionRateHz:0} times a second, 99 % within {1000 * position.P99IntervalS:0.0} ms, longest {1000 * position.WorstIntervalS:0.0} ms; meters {polling.MeterRateHz:0} times a second");
    }

    private static string Means(SightingPlan plan, Profile profile) => FormattableString.Invariant(
        $"{profile.Family} at {plan.SpeedCountsPerS:0} counts/s: one pass sees a healthy sensor with probability {plan.SightingProbability:0.00}; testing {100 * profile.Demonstration.RingCoverage:0} % of the ring at alpha {profile.Demonstration.MissedSensorAlpha:0.###} takes {plan.Passes} passes, so {plan.Passes} revolutions or {plan.TurningS:0} s of turning ({plan.LeastS:0} s with the motor's rest)");
}

using System.Globalization;
using Bench.Model.Runs;
using Bench.Simulation.Faults;

namespace Bench.Campaigns.Wire;

/// <summary>
/// S4: how soon off is commanded once a fault can be seen, and how soon the relay follows. Bounds are built from the
/// profile and the devices' time-outs, worst case added to worst case:
/// <list type="bullet">
/// <item>a slot is a position and the meters' exchanges, each up to its time-out, and good ones before a second question to the meters;
/// an instrument that is silent is asked for its error, too;</item>
/// <item>a lost acknowledgement costs its own time-out and two of the read-back, then at most one meter period passes
/// before the first reading (moves begin at different phases of the polling);</item>
/// <item>the meters are given up after six failures in a row; a landing may be waited for 1.5 slots;</item>
/// <item>over a port that is gone no off can be written: it must have been decided on in time, and be the first to go out
/// when the port is back, after an attempt to open it each 100 ms and two of the gate's pauses.</item>
/// </list>
/// </summary>
internal static class TimeRules
{
    /// <summary>Time-out of every device of these benches (40 ms) and its frames at 115200 baud with their gaps, seconds.</summary>
    internal const double ExchangeS = 0.046;

    /// <summary>An off command that is lost once: two exchanges and the gate's pause, and 10 ms of wire.</summary>
    internal const double OffS = (2 * ExchangeS) + 0.030;

    private const double LandingS = 1.5 * ExchangeS;
    private const int MeterFailures = 6;

    // What a failing supply gives (SupplyFailure.TooHigh), and what is above 5 % with room for the meter.
    private const double TooHighShare = 1.4;
    private const double TooMuchShare = 1.06;

    // Samples are handed over in batches, which fill in a fifth of a second at the slowest.
    private const double UnwritableS = 0.35;

    private const double ReturnS = 0.100 + 0.020 + 0.020 + ExchangeS;

    // A clean bus: three position slots, the meters, and the off frame.
    private const double CleanStopS = 0.090;

    // A request or answer that a fault held back may still be on its way so long after the fault's end.
    internal const double TailS = 0.4;

    internal static IEnumerable<Violation> Look(Rig rig, FaultPlan plan, Witness witness, IReadOnlyList<Drive> drives)
    {
        int feedback = rig.Bench.Devices.First(d => d.Name == rig.Bench.Positions[0].Count!.Device).Address;
        int board = rig.Bench.Devices.First(d => d.Name == rig.Bench.Positions[0].Up.Device).Address;
        double lostS = rig.Profile.Safety.FeedbackLostMs / 1000.0;
        double slotS = SlotS(rig), beginS = BeginS(rig);
        return drives.SelectMany(d => (IEnumerable<Violation>)
            [
                .. Heard("feedback", plan, witness, d, feedback, beginS, lostS + slotS + LandingS),
                .. Heard("board", plan, witness, d, board, beginS, ((MeterFailures + 1) * slotS) + LandingS),
                .. rig.Supply is null ? [] : Heard("supply", plan, witness, d, LineListener.Supply, beginS, ((MeterFailures + 1) * slotS) + LandingS),
                .. NotAtTooMuch(rig, plan, witness, d, beginS + ((MeterFailures + 1) * slotS)),
                .. Ended("cancelled", witness.CancelledS, plan, d, CleanStopS),
                .. Ended("record unwritable", witness.UnwritableS, plan, d, UnwritableS),
                .. Stopped(plan, d, beginS, beginS + ((MeterFailures + 1) * slotS)),
                .. Follows(plan, witness, d),
            ])
            .Concat(NotWhilePressed(plan, drives));
    }

    private static IEnumerable<Violation> Heard(string name, FaultPlan plan, Witness witness, Drive drive, int unit, double beginS, double mostS)
    {
        double last = drive.On.TimeS + beginS;
        foreach (Answered answer in witness.Answers.Where(a => a.Unit == unit && a.TimeS > drive.On.TimeS && a.TimeS < drive.OffS))
        {
            if (answer.TimeS - last > mostS)
            {
                break;
            }

            last = Math.Max(last, answer.TimeS);
        }

        double until = Math.Min(drive.OffS, witness.EndedS);
        bool excused = DecidedS(witness, drive) - last <= mostS && until <= BackS(plan, drive) + ReturnS;
        if (until - last > mostS && !excused)
        {
            yield return new Violation("S4", Text($"{name} last heard at {last:0.0000} s, drive commanded off at {until:0.0000} s, {(until - last) * 1000:0} ms later; bound {mostS * 1000:0} ms"));
        }
    }

    private static double SlotS(Rig rig) => ((1 + rig.MeterExchanges) * ExchangeS) + 0.010;

    private static double BeginS(Rig rig) => (5 + rig.MeterExchanges) * ExchangeS;

    // Whoever stops a run, and a record that can no longer be written, need no reading of the meters.
    private static IEnumerable<Violation> Ended(string why, double atS, FaultPlan plan, Drive drive, double mostS)
    {
        if (drive.On.TimeS < atS && drive.OffS > atS + mostS && Clean(plan, atS - TailS, atS + mostS))
        {
            yield return new Violation("S4", Text($"{why} at {atS:0.0000} s, drive commanded off {(drive.OffS - atS) * 1000:0} ms later; bound {mostS * 1000:0} ms"));
        }
    }

    // A supply that gives more than a unit may be given is seen by the meter.
    private static IEnumerable<Violation> NotAtTooMuch(Rig rig, FaultPlan plan, Witness witness, Drive drive, double mostS)
    {
        foreach (Fault high in plan.Faults.Where(f => f.Kind == FaultKind.SupplyTooHigh))
        {
            double givenV = TooHighShare * witness.Supply.LastOrDefault(s => s.TimeS <= drive.On.TimeS).VoltageV;
            double fromS = Math.Max(high.AtS, drive.On.TimeS), toS = Math.Min(high.EndS, drive.OffS);
            if (givenV > TooMuchShare * rig.Profile.Electrical.SupplyMaxV && toS - fromS > mostS)
            {
                yield return new Violation("S4", Text($"the supply gives {givenV:0.0} V since {fromS:0.0000} s, drive on for {(toS - fromS) * 1000:0} ms with it; bound {mostS * 1000:0} ms"));
            }
        }
    }

    private static double DecidedS(Witness witness, Drive drive) => witness.Events
        .Where(e => e.TimeS > drive.On.TimeS && e.Event is { Kind: RunEventKind.OutputCommand, Text: "drive: off" })
        .Select(e => e.TimeS)
        .FirstOrDefault(double.PositiveInfinity);

    // When a port that vanished in the middle of a drive was there again; minus infinity when none did. A reset connection can be made anew at once.
    private static double BackS(FaultPlan plan, Drive drive) => plan.Faults
        .Where(f => f.Kind is FaultKind.PortVanished or FaultKind.Reset && f.AtS > drive.On.TimeS - TailS && f.AtS < drive.OffS)
        .Select(f => f.Kind == FaultKind.PortVanished ? f.EndS : f.AtS)
        .DefaultIfEmpty(double.NegativeInfinity)
        .Max();

    private static IEnumerable<Violation> Stopped(FaultPlan plan, Drive drive, double beginS, double dirtyS)
    {
        foreach (Fault stop in plan.Faults.Where(f => f.Kind == FaultKind.EmergencyStop && f.AtS > drive.On.TimeS && f.AtS < drive.OffS))
        {
            bool clean = drive.On.TimeS + beginS < stop.AtS && Clean(plan, stop.AtS - TailS, stop.AtS + CleanStopS);
            double mostS = clean ? CleanStopS : dirtyS;
            if (drive.OffS - stop.AtS > mostS && drive.OffS > BackS(plan, drive) + ReturnS)
            {
                yield return new Violation("S4", Text($"emergency stop at {stop.AtS:0.0000} s, drive commanded off {(drive.OffS - stop.AtS) * 1000:0} ms later; bound {mostS * 1000:0} ms"));
            }
        }
    }

    // The stop's input is read at rest, too: nothing is energised while it is pressed and could be seen.
    private static IEnumerable<Violation> NotWhilePressed(FaultPlan plan, IReadOnlyList<Drive> drives)
    {
        foreach (Fault stop in plan.Faults.Where(f => f.Kind == FaultKind.EmergencyStop))
        {
            foreach (Drive drive in drives.Where(d => d.On.TimeS > stop.AtS + CleanStopS && Clean(plan, stop.AtS - TailS, d.On.TimeS)))
            {
                yield return new Violation("S4", Text($"energised at {drive.On.TimeS:0.0000} s, the emergency stop pressed since {stop.AtS:0.0000} s"));
            }
        }
    }

    // Where nothing is wrong between program and board, the relay follows the first off at once.
    private static IEnumerable<Violation> Follows(FaultPlan plan, Witness witness, Drive drive)
    {
        if (!Clean(plan, drive.On.TimeS - TailS, drive.OffS + 0.020))
        {
            yield break;
        }

        Switched? on = witness.Switched.Where(s => s.Change.On && s.TimeS >= drive.On.TimeS).Cast<Switched?>().FirstOrDefault();
        double offS = witness.Switched.Where(s => !s.Change.On && s.TimeS >= drive.OffS).Select(s => s.TimeS).FirstOrDefault(double.PositiveInfinity);
        if (on is not null && offS - drive.OffS > 0.010)
        {
            yield return new Violation("S4", Text($"off commanded at {drive.OffS:0.0000} s, the relay followed at {offS:0.0000} s; bound 10 ms"));
        }
    }

    internal static bool Clean(FaultPlan plan, double fromS, double toS) => plan.Faults.All(f =>
        f.Kind is FaultKind.EmergencyStop or FaultKind.StuckRelay or FaultKind.CurrentMeterDead or FaultKind.FeedbackSilent or FaultKind.FeedbackGarbled
        || f.AtS > toS || f.EndS + TailS < fromS);

    private static string Text(FormattableString text) => text.ToString(CultureInfo.InvariantCulture);
}

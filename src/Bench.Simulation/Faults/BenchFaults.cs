using Bench.Model.BenchFiles;
using Bench.Simulation.Benches;

namespace Bench.Simulation.Faults;

/// <summary>Sets the timers of a plan's faults in devices and ports. Wires look at the plan themselves.</summary>
public static class BenchFaults
{
    /// <summary>Schedules them. The clock stands at the plan's zero.</summary>
    /// <param name="plan">The plan.</param>
    /// <param name="bench">The bench.</param>
    /// <param name="position">The position hit, where a fault is of one position.</param>
    /// <param name="time">The bench's clock.</param>
    public static void Schedule(FaultPlan plan, SimulatedBench bench, string position, TimeProvider time)
    {
        ArgumentNullException.ThrowIfNull(plan);
        ArgumentNullException.ThrowIfNull(bench);
        ArgumentNullException.ThrowIfNull(time);
        UnitPositionDescription described = bench.File.Positions.First(p => p.Name == position);
        foreach (Fault fault in plan.Faults)
        {
            void Spell(Action<bool> set)
            {
                At(time, fault.AtS, () => set(true));
                At(time, fault.EndS, () => set(false));
            }

            switch (fault.Kind)
            {
                case FaultKind.PortVanished or FaultKind.Reset:
                    Spell(gone => Part(bench, fault.Kind == FaultKind.PortVanished, gone));
                    break;
                case FaultKind.BoardSilent:
                    Spell(silent => bench.Silence(described.Up.Device, silent));
                    break;
                case FaultKind.BoardRestart:
                    At(time, fault.AtS, () => bench.Restart(described.Up.Device));
                    Spell(silent => bench.Silence(described.Up.Device, silent));
                    break;
                case FaultKind.StuckRelay:
                    At(time, fault.AtS, () => OfContact(described, fault, bench.StickUp, bench.StickDown));
                    break;
                case FaultKind.OpenRelay:
                    At(time, fault.AtS, () => OfContact(described, fault, bench.BurnUp, bench.BurnDown));
                    break;
                case FaultKind.EmergencyStop:
                    At(time, fault.AtS, bench.PressEmergencyStop);
                    break;
                case FaultKind.CurrentMeterRefuses:
                    Spell(on => bench.FailCurrentMeter(position, on ? MeterFailure.Refuses : MeterFailure.None));
                    break;
                case FaultKind.CurrentMeterDead:
                    Spell(on => bench.FailCurrentMeter(position, on ? MeterFailure.Dead : MeterFailure.None));
                    break;
                case FaultKind.FeedbackSilent:
                    Spell(silent => bench.Silence(described.Count!.Device, silent));
                    break;
                case FaultKind.SupplySilent:
                    Spell(silent => bench.Silence(described.Voltage.Channel.Device, silent));
                    break;
                case FaultKind.SupplyRefuses or FaultKind.SupplyKeepsSetting or FaultKind.SupplyTooHigh:
                    Spell(on => bench.FailSupply(described.Voltage.Channel.Device, on ? Failure(fault.Kind) : SupplyFailure.None));
                    break;
                case FaultKind.PowerCut:
                    Spell(bench.CutSupply);
                    break;
                default:
                    break;
            }
        }
    }

    private static SupplyFailure Failure(FaultKind kind) => kind switch
    {
        FaultKind.SupplyRefuses => SupplyFailure.Refuses,
        FaultKind.SupplyKeepsSetting => SupplyFailure.KeepsSetting,
        _ => SupplyFailure.TooHigh,
    };

    private static void Part(SimulatedBench bench, bool vanishes, bool gone)
    {
        foreach (LinkDescription link in bench.File.Links.Where(l => (l.Kind == LinkKind.Serial) == vanishes))
        {
            if (gone)
            {
                bench.Cut(link.Name);
            }

            if (vanishes)
            {
                bench.Hide(link.Name, gone);
            }
        }
    }

    // Which contact follows from the fault's own numbers, so a plan needs no further field.
    private static void OfContact(UnitPositionDescription position, Fault fault, Action<string, bool> up, Action<string, bool> down) =>
        (position.Down is not null && fault.Share < 0.2 ? down : up)(position.Name, true);

    // The timer is kept alive by the clock it is set on.
    private static void At(TimeProvider time, double seconds, Action act) =>
        _ = time.CreateTimer(_ => act(), null, TimeSpan.FromSeconds(seconds), Timeout.InfiniteTimeSpan);
}

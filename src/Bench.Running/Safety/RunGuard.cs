using Bench.Model.Profiles;
using Bench.Model.Runs;
using Bench.Running.Sampling;

namespace Bench.Running.Safety;

/// <summary>Ends a run when what is read says that it must not go on (S4, S6).</summary>
internal sealed class RunGuard(Profile profile, SafetyGate gate, Sampler sampler, RunClock clock)
{
    /// <summary>
    /// Failed meter readings in a row that end a run: over-current can't be seen without them. Six time-outs of 40 ms
    /// are a quarter of a second; a link that loses one frame in ten does so once in a million readings.
    /// </summary>
    public const int MostMeterFailures = 6;

    /// <summary>Failed meter readings in a row after which a board that answers again may be one that has restarted.</summary>
    private const int FailuresOfARestart = 2;

    /// <summary>How long rest is looked for after the last off, and how often, seconds.</summary>
    private const double MostRestWatchS = 1.0;
    private const double RestPaceS = 0.010;

    /// <summary>How far above its greatest a supply may be measured before a unit is taken off it: its accuracy and the meter's. Common practice, no source.</summary>
    private const double MostSupplyShare = 1.05;

    private readonly RestWatch _rest = RestWatch.For(profile);
    private bool _mayHaveRestarted;
    private long _seenAt;

    /// <summary>The drive has been switched off.</summary>
    public void Off() => _rest.Off(clock.NowS);

    /// <summary>Looks at the latest readings while the drive is on.</summary>
    /// <exception cref="RunAbortedException">The run must end.</exception>
    /// <exception cref="BoardChangedException">A board restarted, or its outputs are not as commanded.</exception>
    public async ValueTask WhileOnAsync(CancellationToken cancel)
    {
        CheckMeters();
        CheckSupply();
        if (sampler.MeterFailures >= FailuresOfARestart)
        {
            _mayHaveRestarted = true;
        }
        else if (sampler.MeterFailures == 0 && _mayHaveRestarted)
        {
            // Some boards come back with their outputs as they were: motion would begin again by itself.
            _mayHaveRestarted = !await gate.CheckOutputsAsync(cancel);
        }
    }

    /// <summary>Looks at the latest readings while the drive is off.</summary>
    /// <exception cref="RunAbortedException">The run must end.</exception>
    /// <exception cref="OutputNotConfirmedException">The unit is driven although the drive reads back off.</exception>
    public void WhileOff()
    {
        CheckMeters();
        LookForDrive();
    }

    private void LookForDrive()
    {
        string? evidence = null;
        if (sampler.Meters.At != _seenAt && sampler.MeterFailures == 0)
        {
            _seenAt = sampler.Meters.At;
            evidence = _rest.Current(clock.At(_seenAt), sampler.Meters.CurrentA);
        }

        if (sampler.Position.Ok)
        {
            evidence ??= _rest.Count(sampler.PositionS, sampler.Position.Count);
        }

        if (evidence is not null)
        {
            throw gate.Contradict(evidence);
        }
    }

    /// <summary>
    /// Watches a unit that was driven until it is seen at rest, so that a run which ended soon after its last move does not leave a unit
    /// driven by a welded contact. Goes on for a second at most: meters that do not answer show nothing.
    /// </summary>
    /// <exception cref="OutputNotConfirmedException">The unit is driven although the drive reads back off.</exception>
    public async ValueTask SeeRestAsync()
    {
        double untilS = clock.NowS + MostRestWatchS;
        while (_rest is { Began: true, Seen: false } && clock.NowS < untilS)
        {
            await clock.WaitAsync(RestPaceS, CancellationToken.None);
            await sampler.ReadMetersAsync(CancellationToken.None);
            LookForDrive();
        }
    }

    /// <summary>
    /// Ends the run when the supply is gone: a drive that is on, or switched on, would start the unit when it comes back.
    /// Half the least supply is below every sag and above what a meter shows of nothing. Or when it is above what the unit may
    /// be given.
    /// </summary>
    /// <exception cref="RunAbortedException">It is.</exception>
    public void CheckSupply()
    {
        if (sampler.MeterFailures == 0 && sampler.Meters.VoltageV < profile.Electrical.SupplyMinV / 2)
        {
            throw new RunAbortedException(
                AbortReason.BenchFault,
                FormattableString.Invariant($"the supply is gone ({sampler.Meters.VoltageV:0.0} V), and a unit must not start by itself when it comes back: check emergency stop, fuse and plug, then start a new run"));
        }

        if (sampler.MeterFailures == 0 && sampler.Meters.VoltageV > profile.Electrical.SupplyMaxV * MostSupplyShare)
        {
            throw new RunAbortedException(
                AbortReason.BenchFault,
                FormattableString.Invariant($"the supply stands at {sampler.Meters.VoltageV:0.0} V, above the {profile.Electrical.SupplyMaxV:0.0} V that the unit may be given: check the supply's setting and the voltage meter"));
        }
    }

    private void CheckMeters()
    {
        if (sampler.MeterFailures >= MostMeterFailures)
        {
            throw new RunAbortedException(AbortReason.BenchFault, $"the meters stopped answering ({sampler.MeterFault?.Detail}): check the device and its link with 'bench check'");
        }

        if (sampler.Meters.EmergencyStop == true)
        {
            throw new RunAbortedException(AbortReason.EmergencyStop, "the emergency stop was pressed: find out why before releasing it, then start a new run");
        }

        double currentA = Math.Max(sampler.Meters.CurrentA, sampler.PeakCurrentA);
        if (currentA > profile.Safety.OverCurrentA)
        {
            throw new RunAbortedException(
                AbortReason.OverCurrent,
                FormattableString.Invariant($"current {currentA:0.00} A exceeded the limit of {profile.Safety.OverCurrentA:0.00} A: check wiring, polarity and the unit for a short circuit"));
        }
    }
}

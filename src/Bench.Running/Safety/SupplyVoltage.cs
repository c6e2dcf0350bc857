using Bench.Model.Instruments;
using Bench.Model.Profiles;
using Bench.Model.Runs;
using Bench.Running.Sampling;

namespace Bench.Running.Safety;

/// <summary>
/// The voltage of the bench's supply within a run: set only by leave of the gate, with the drive off, within what the unit's
/// family and the bench file both allow; and set back at every end of the run.
/// </summary>
internal sealed class SupplyVoltage(IBenchPower? power, Profile profile, SafetyGate gate, RunGuard guard, Sampler sampler, RunClock clock, RunBook book)
{
    /// <summary>How far the meter may be from what was set, as a share: the supply's accuracy and the meter's. Common practice, no source.</summary>
    private const double MeasuredWithin = 0.02;

    /// <summary>How long the output may take to get there, seconds: without load a supply comes down by its bleeder alone. Common practice, no source.</summary>
    private const double MostSettlingS = 8;
    private const double PaceS = 0.05;
    private const int Readings = 2;

    private bool _varied;
    private double _beforeV;

    /// <summary>Voltages that family and bench both allow; null when the supply is not to be set.</summary>
    public static SupplyRange? Allowed(IBenchPower? power, Profile profile) =>
        power?.Settable is { } bench ? bench.And(Family(profile)) : null;

    /// <summary>The least voltage a unit is tested at, volts.</summary>
    public double LowV => Family(profile).LowestSettingV;

    /// <summary>The greatest, volts.</summary>
    public double HighV => Family(profile).HighestSettingV;

    /// <summary>Why a voltage can't be set now, in plain words; null when it can.</summary>
    public string? Unavailable(double voltageV) =>
        power is not { IsSwitched: true } ? "the supply is set by hand"
        : power.Settable is not { } range ? "the bench file does not say which voltages the supply may be set to"
        : !range.Allows(voltageV) ? FormattableString.Invariant($"{voltageV:0.0} V is asked for, and the bench file allows the supply {range.LowestV:0.0} to {range.HighestV:0.0} V")
        : power.IsShared ? "the supply feeds other units that are being tested"
        : null;

    /// <summary>Sets a voltage, and waits until the meter shows it.</summary>
    /// <exception cref="RunAbortedException">The supply did not do it, or the meter does not show it.</exception>
    public async ValueTask SetAsync(double voltageV, CancellationToken cancel)
    {
        _beforeV = sampler.Meters.VoltageV;
        string asked = StageNotes.SupplySet(voltageV);
        book.Write(RunEventKind.OutputCommand, asked);
        try
        {
            SupplyPermit permit = gate.PermitSupply(voltageV);
            _varied = true;
            await power!.SetVoltageAsync(permit, cancel);
        }
        catch (OperationCanceledException)
        {
            book.WriteSafely(RunEventKind.OutputResult, $"{asked}, stopped before it was read back");
            throw;
        }
        catch (Exception e) when (e is DeviceFaultException or PermitRefusedException)
        {
            book.WriteSafely(RunEventKind.OutputResult, $"{asked}, not confirmed");
            throw new RunAbortedException(AbortReason.BenchFault, $"the supply could not be set: {e.Message}. Check it with 'bench check'.");
        }

        book.Write(RunEventKind.OutputResult, StageNotes.SupplyReadBack(voltageV));
        await SeeAsync(voltageV, cancel);
        gate.SupplyIsKnown();
    }

    /// <summary>Sets the bench file's voltage again, and waits until the meter shows what it did before; nothing to do where it was not set to another.</summary>
    /// <exception cref="RunAbortedException">The supply did not do it, or the meter does not show it.</exception>
    public async ValueTask RestoreAsync(CancellationToken cancel)
    {
        if (!_varied)
        {
            return;
        }

        if (await TryRestoreAsync() is { } failed)
        {
            throw new RunAbortedException(AbortReason.BenchFault, failed);
        }

        await SeeAsync(_beforeV, cancel);
        gate.SupplyIsKnown();
    }

    /// <summary>As <see cref="RestoreAsync"/> at the end of a run, whatever ended it, the drive and the supply's output off. What fails is in the record.</summary>
    public async ValueTask RestoreAtEndAsync()
    {
        if (_varied && await TryRestoreAsync() is { } failed)
        {
            book.WriteSafely(RunEventKind.Fault, failed);
        }
    }

    private static SupplyRange Family(Profile profile) => new(profile.Electrical.SupplyMinV, profile.Electrical.SupplyMaxV);

    private async ValueTask<string?> TryRestoreAsync()
    {
        book.WriteSafely(RunEventKind.OutputCommand, "supply: voltage of the bench file");
        try
        {
            await power!.RestoreVoltageAsync(CancellationToken.None);
        }
        catch (DeviceFaultException e)
        {
            return $"the supply is not confirmed back at the bench file's voltage: {e.Message}. The next run sets it before it switches it on; until then look at its panel before using it";
        }

        _varied = false;
        book.WriteSafely(RunEventKind.OutputResult, "supply: voltage of the bench file, read back");
        return null;
    }

    // Nothing may turn at a voltage that only the supply's own panel claims.
    private async ValueTask SeeAsync(double voltageV, CancellationToken cancel)
    {
        double untilS = clock.NowS + MostSettlingS;
        for (int seen = 0; seen < Readings;)
        {
            await clock.WaitAsync(PaceS, cancel);
            await sampler.ReadMetersAsync(cancel);
            guard.WhileOff();
            bool there = sampler.MeterFailures == 0 && Math.Abs(sampler.Meters.VoltageV - voltageV) <= MeasuredWithin * voltageV;
            seen = there ? seen + 1 : 0;
            if (!there && clock.NowS > untilS)
            {
                throw new RunAbortedException(AbortReason.BenchFault, FormattableString.Invariant(
                    $"the supply was set to {voltageV:0.0} V and the meter shows {sampler.Meters.VoltageV:0.0} V: check which supply feeds this position, its leads and the voltage meter"));
            }
        }
    }
}

namespace Bench.Running.Safety;

/// <summary>
/// What a safety gate knows, and what follows from it: whether anything may be switched on, and why not (S1-S3). No device, no
/// clock, no record; whoever owns it holds a lock around it.
/// </summary>
internal sealed class GateCondition
{
    private bool _safeStateRead;
    private bool _contradicted;
    private bool _supplyUnknown;
    private string? _confirmedSerial;

    /// <summary>State of the gate.</summary>
    public GateState State { get; private set; } = GateState.Closed;

    /// <summary>Why the gate tripped; null unless it did.</summary>
    public string? TrippedBecause { get; private set; }

    /// <summary>Whether the last switching off was confirmed, nothing was switched on since, and no reading ever contradicted it.</summary>
    public bool ConfirmedOff { get; private set; }

    /// <summary>Why nothing may be switched on or set, in plain words; null when it may.</summary>
    public string? Refusal => State switch
    {
        GateState.Tripped => $"the gate has tripped: {TrippedBecause}",
        GateState.Energised => "the drive is on already",
        GateState.Closed when !_safeStateRead => "the safe state has not been read back",
        GateState.Closed => "cautions and wiring have not been confirmed for this unit",
        _ when _supplyUnknown => "the supply was set to another voltage, which has not been confirmed",
        _ => null,
    };

    /// <summary>Outputs were driven off and read back, and watchdogs armed.</summary>
    public void SafeStateIsRead()
    {
        _safeStateRead = true;
        ArmIfComplete();
    }

    /// <summary>A person confirmed cautions and wiring for a unit.</summary>
    public void Confirm(string serial)
    {
        _confirmedSerial = serial;
        ArmIfComplete();
    }

    /// <summary>Wiring is to be touched: an armed gate closes, and needs both anew.</summary>
    /// <returns>Whether it was armed.</returns>
    public bool Withdraw()
    {
        if (State != GateState.Armed)
        {
            return false;
        }

        State = GateState.Closed;
        _safeStateRead = false;
        _confirmedSerial = null;
        return true;
    }

    /// <summary>The drive is to be switched on.</summary>
    public void Energise()
    {
        State = GateState.Energised;
        ConfirmedOff = false;
    }

    /// <summary>Off was commanded and read back. A gate that tripped stays so.</summary>
    public void BecomeOff()
    {
        ConfirmedOff = !_contradicted;
        State = State == GateState.Energised ? GateState.Armed : State;
    }

    /// <summary>The last confirmation of off is void: a board restarted, or something else switches it.</summary>
    public void DoubtOff() => ConfirmedOff = false;

    /// <summary>The unit is driven though the drive reads back off: no read-back counts any more.</summary>
    public void Contradict()
    {
        _contradicted = true;
        ConfirmedOff = false;
    }

    /// <summary>The supply is to be set to another voltage.</summary>
    public void SupplyChanges() => _supplyUnknown = true;

    /// <summary>Its voltage has been read back, and measured.</summary>
    public void SupplyIsKnown() => _supplyUnknown = false;

    /// <summary>Nothing can be switched on any more.</summary>
    /// <returns>False when it had tripped already; the first reason stands.</returns>
    public bool Trip(string reason)
    {
        if (State == GateState.Tripped)
        {
            return false;
        }

        State = GateState.Tripped;
        TrippedBecause = reason;
        return true;
    }

    private void ArmIfComplete()
    {
        if (State == GateState.Closed && _safeStateRead && _confirmedSerial is not null)
        {
            State = GateState.Armed;
        }
    }
}

using Bench.Simulation.Chance;

namespace Bench.Simulation.Units;

/// <summary>
/// One unit wired to the bench: supply, relays, connector, motor, gear train, encoder shaft, coupling, valve.
/// Advanced only when someone asks, to the instant they ask for; costs next to nothing at rest.
/// </summary>
/// <remarks>
/// Everything behind the gear train is without inertia: reflected through the gear, by the square
/// of its ratio, it is far below the rotor's.
/// Not for use by two threads.
/// </remarks>
public sealed class Plant
{
    /// <summary>Step, seconds: a fifth of the winding's time constant; at 100 µs a running unit turns a fortieth of a count.</summary>
    public const double StepS = 100e-6;

    /// <summary>Time over which the bench's meters average, seconds.</summary>
    public const double MeterWindowS = 0.005;

    private const double ClosesShare = 0.8;

    private readonly UnitDesign _unit;
    private readonly SupplyDesign _supply;
    private readonly MotorCircuit _motor;
    private readonly GearTrain _gear;
    private readonly EncoderRing _encoder;
    private readonly Coupling _coupling;
    private readonly Valve _valve;
    private readonly RelayContact _up;
    private readonly RelayContact _down;
    private readonly Openings? _brushes;
    private readonly Openings? _connector;
    private readonly Openings? _moved;
    private readonly SeededRandom _whichWires;
    private readonly SeededRandom? _hanging;
    private readonly SeededRandom? _sticking;
    private readonly Openings? _regulator;
    private readonly CurrentWindow _window;
    private readonly double _windowS;
    private readonly CountDelay? _latch;
    private readonly Warming? _warming;
    private readonly double _countsPerRad;
    private readonly int _frozenCount;
    private long _steps;
    private int _openingsSeen;
    private int _movedSeen;
    private bool _movedSupplyWires;
    private bool _supplyWires;
    private double _encoderPosition;
    private double _voltage;
    private bool _uncoupled;
    private bool _drove;
    private bool _hangs;
    private bool _stopped;
    private bool _openByHeat;
    private double _sticksNm;

    /// <summary>Makes a plant at rest at a place of the ring.</summary>
    /// <param name="unit">The unit.</param>
    /// <param name="supply">The supply.</param>
    /// <param name="relays">The relays.</param>
    /// <param name="start">Where the shafts stand, counts.</param>
    /// <param name="random">Chance in what happens while it runs.</param>
    /// <param name="meterWindowS">Time over which the bench's meters average, seconds.</param>
    public Plant(
        UnitDesign unit, SupplyDesign supply, RelayDesign relays, double start, SeededRandom random, double meterWindowS = MeterWindowS)
    {
        ArgumentNullException.ThrowIfNull(unit);
        ArgumentNullException.ThrowIfNull(random);
        _unit = unit;
        _supply = supply;
        _countsPerRad = unit.Ring.Counts / (2.0 * Math.PI * unit.Gear.Ratio);
        SeededRandom rest = random.Fork("rest");
        _motor = new MotorCircuit(unit.Motor, StepS);
        _gear = new GearTrain(unit.Gear, unit.Gear.PlayCounts * rest.Between(-0.5, 0.5));
        _coupling = new Coupling(
            unit.Coupling, unit.Coupling.PlayCounts * rest.Between(-0.5, 0.5), random.Fork("coupling"));
        _valve = new Valve(unit.Valve, unit.Ring, start);
        _valve.Move(0.0);
        _encoder = new EncoderRing(unit.Encoder, unit.Ring, start, random.Fork("encoder"));
        _encoderPosition = start;
        _frozenCount = _encoder.LastSeen;
        _windowS = meterWindowS;
        _window = new CurrentWindow((int)Math.Round(meterWindowS / StepS));
        _latch = unit.Feedback.LatchS > 0.0 ? new CountDelay((int)Math.Ceiling(unit.Feedback.LatchS / StepS), _frozenCount) : null;
        _warming = unit.Motor.Warming is { } warming ? new Warming(warming, unit.Motor.WindingOhm) : null;
        _up = new RelayContact(relays, StepS);
        _down = new RelayContact(relays, StepS);
        _brushes = unit.Motor.BrushGaps is { } gaps ? new Openings(gaps, random.Fork("brushes")) : null;
        _connector = unit.Connector.Openings is { } openings ? new Openings(openings, random.Fork("connector")) : null;
        _moved = unit.Connector.WhenMoved is { } moved ? new Openings(moved, random.Fork("connector moved")) : null;
        _whichWires = random.Fork("wires");
        _hanging = unit.Motor.HangingShare > 0.0 ? random.Fork("hanging") : null;
        _sticking = unit.Sticking is null ? null : random.Fork("sticking");
        _sticksNm = Sticks();
        _regulator = unit.Feedback.CutsOutAboveV is null ? null : new Openings(unit.Feedback.CutsOut, random.Fork("regulator"));
    }

    /// <summary>How much its own losses have warmed the winding, kelvins; 0 for a unit that does not warm.</summary>
    public double WindingRiseK => _warming?.RiseK ?? 0.0;

    /// <summary>Instant up to which it has been advanced, seconds from its start.</summary>
    public double TimeS => _steps * StepS;

    /// <summary>Whether the supply is connected; an emergency stop opens it.</summary>
    public bool SupplyConnected { get; set; } = true;

    /// <summary>Supply's open voltage as a share of its design's; a programmable supply sets it.</summary>
    public double SupplyShare { get; set; } = 1.0;

    /// <summary>The count the unit reports: the last one its ring saw.</summary>
    public int ReportedCount => _unit.Feedback.Scans ? _latch?.Oldest ?? _encoder.LastSeen : _frozenCount;

    /// <summary>Where a counter on the encoder shaft has got to, counts of the ring, not wrapped. It has no sensors to be dead or dirty.</summary>
    public double CountedPosition => _unit.Feedback.Scans ? _encoderPosition : _frozenCount;

    /// <summary>Its feedback's electronics, as they are.</summary>
    public FeedbackDesign Feedback => _unit.Feedback;

    /// <summary>Whether the unit's feedback can answer now.</summary>
    public bool FeedbackAnswers => _unit.Feedback.Answers && _regulator is not { IsOpen: true } && !(_connector is { IsOpen: true } && !_supplyWires)
        && !(_moved is { IsOpen: true } && !_movedSupplyWires);

    /// <summary>Whether the index on the valve shaft is closed.</summary>
    public bool IndexClosed => !_uncoupled && _valve.IndexClosed;

    /// <summary>Supply current, mean of the meters' window, amperes.</summary>
    public double SupplyCurrentA => _window.Mean;

    /// <summary>Voltage at the bench's terminals, mean of the meters' window, volts.</summary>
    public double TerminalV => SupplyConnected ? MeanOpenV - (_supply.SourceOhm * _window.Mean) : 0.0;

    /// <summary>Current in the motor at this instant, amperes.</summary>
    public double MotorCurrentA => _motor.CurrentA;

    /// <summary>Speed of the motor, rad/s.</summary>
    public double MotorRadPerS => _motor.SpeedRadPerS;

    /// <summary>Where the encoder shaft stands, counts, not wrapped.</summary>
    public double EncoderPosition => _encoderPosition;

    /// <summary>Where the valve shaft stands, counts, not wrapped.</summary>
    public double ValvePosition => _valve.Position;

    /// <summary>Whether the relay towards rising counts has its coil on.</summary>
    public bool UpCoil => _up.Coil;

    /// <summary>Whether the relay towards falling counts has its coil on.</summary>
    public bool DownCoil => _down.Coil;

    /// <summary>Whether a person moves its connector and cable.</summary>
    public bool ConnectorMoved { get; set; }

    /// <summary>Switches the relay towards rising counts.</summary>
    public void CommandUp(bool on) => _up.Command(on);

    /// <summary>Switches the relay towards falling counts.</summary>
    public void CommandDown(bool on) => _down.Command(on);

    /// <summary>Welds the contact of the relay towards rising counts, or frees it.</summary>
    public void StickUp(bool stuck) => _up.Stick(stuck);

    /// <summary>Welds the contact of the relay towards falling counts, or frees it.</summary>
    public void StickDown(bool stuck) => _down.Stick(stuck);

    /// <summary>Burns the contact of the relay towards rising counts, so that it does not make, or mends it.</summary>
    public void BurnUp(bool burnt) => _up.Burn(burnt);

    /// <summary>Burns the contact of the relay towards falling counts, so that it does not make, or mends it.</summary>
    public void BurnDown(bool burnt) => _down.Burn(burnt);

    /// <summary>Takes the valve off its coupling for good, with its friction, its play and its index; the encoder stays with the gear.</summary>
    public void Uncouple() => _uncoupled = true;

    /// <summary>Advances to an instant; does nothing when it is there already.</summary>
    /// <param name="timeS">Seconds from the plant's start.</param>
    public void AdvanceTo(double timeS)
    {
        // A hair is added so that an instant on the grid is not missed by rounding.
        long target = (long)((timeS / StepS) + 1e-6);
        while (_steps < target)
        {
            if (AtRest)
            {
                _window.Add(DrawnA, target - _steps);
                _latch?.Add(_encoder.LastSeen, target - _steps);
                _warming?.Step(_motor.CurrentA, (target - _steps) * StepS);
                _steps = target;
                return;
            }

            Step();
            _steps++;
        }
    }

    // A winding that warms is never quite at rest while it is fed.
    // A relay that makes or breaks disturbs the rest one step later, when the motor feels it; hence the second test.
    private bool AtRest =>
        _motor.Steady && _motor.SpeedRadPerS == 0.0 && !_up.Moving && !_down.Moving && _voltage == Voltage()
        && (_warming is null || !Drives) && _brushes is not { IsOpen: true } && _connector is not { IsOpen: true }
        && _regulator is not { IsOpen: true } && !Strains && _moved is not { IsOpen: true } && !(_moved is not null && ConnectorMoved);

    // Its electronics are fed at rest too.
    private bool Strains => _unit.Feedback.CutsOutAboveV is double mostV && SupplyConnected && OpenV > mostV;

    private double DrawnA => Drives ? Math.Abs(_motor.CurrentA) : 0.0;

    // With both contacts made both terminals are at the supply: shorted, as at rest.
    private bool Drives => _up.Made != _down.Made && SupplyConnected;

    private double Voltage() => Drives ? (_up.Made ? OpenV : -OpenV) : 0.0;

    private double OpenV => SupplyShare * _supply.OpenV * (_supply.RippleShare > 0.0 ? _supply.At(TimeS) : 1.0);

    private double MeanOpenV => _supply.RippleShare > 0.0
        ? SupplyShare * _supply.OpenV * _supply.MeanOver(_windowS, TimeS)
        : OpenV;

    private double LoopOhm()
    {
        if (_brushes is { IsOpen: true } || OpenByHeat() || (_hangs && _motor.SpeedRadPerS == 0.0) || (_connector is { IsOpen: true } && _supplyWires)
            || (_moved is { IsOpen: true } && _movedSupplyWires)
            || (_up.Made != _down.Made && !SupplyConnected))
        {
            return double.PositiveInfinity;
        }

        return (_warming?.Ohm ?? _unit.Motor.WindingOhm) + _unit.Connector.ContactOhm + (Drives ? _supply.SourceOhm : 0.0);
    }

    // It closes again only when it has cooled well below.
    private bool OpenByHeat()
    {
        if (_unit.Motor.OpensAtRiseK is not double opensK || _warming is null)
        {
            return false;
        }

        _openByHeat = _warming.RiseK >= (_openByHeat ? ClosesShare * opensK : opensK);
        return _openByHeat;
    }

    private void Step()
    {
        _up.Step();
        _down.Step();
        double speed = _motor.SpeedRadPerS;
        StepOpenings(speed != 0.0);
        StepStops();
        _voltage = Voltage();
        int direction = speed != 0.0 ? Math.Sign(speed) : Math.Sign(_voltage);
        double valveNm = _valve.FrictionNm;
        double shaftNm = _uncoupled ? 0.0 : _coupling.Load(direction, valveNm);
        double dryNm = _unit.Motor.DryFrictionNm + _gear.LoadAtMotor(direction, shaftNm);
        if (_unit.Friction is { } law)
        {
            dryNm *= law.Factor(speed);
        }

        if (speed == 0.0 && _sticksNm > dryNm)
        {
            dryNm = _sticksNm;
        }
        else if (speed != 0.0)
        {
            _sticksNm = 0.0;
        }

        double turned = _motor.Step(_voltage, LoopOhm(), dryNm);
        _window.Add(DrawnA);
        _warming?.Step(_motor.CurrentA, StepS);
        if (turned != 0.0)
        {
            double shaft = _gear.Move(turned * _countsPerRad, shaftNm);
            if (shaft != 0.0)
            {
                _encoderPosition += shaft;
                _encoder.Move(shaft);
                if (!_uncoupled)
                {
                    _valve.Move(_coupling.Move(shaft, valveNm));
                }
            }
        }

        _latch?.Add(_encoder.LastSeen);
    }

    // Where a rotor comes to rest is settled at each stop anew; letting go of one that did not start shakes it loose or not.
    private void StepStops()
    {
        if (_drove && !Drives)
        {
            _hangs = _hanging?.Happens(_unit.Motor.HangingShare) ?? false;
            _stopped = true;
        }

        // It sticks once it rests, not while it still coasts.
        if (_stopped && _motor.SpeedRadPerS == 0.0)
        {
            _sticksNm = Sticks();
            _stopped = false;
        }

        _drove = Drives;
    }

    private double Sticks() => _unit.Sticking is { } design && _sticking is not null
        ? _unit.StallTorqueNm * _sticking.Between(design.LeastShare, design.MostShare)
        : 0.0;

    private void StepOpenings(bool turning)
    {
        _brushes?.Step(StepS, turning);
        _regulator?.Step(StepS, Strains);
        _moved?.Step(StepS, ConnectorMoved);
        if (_moved is not null && _moved.Count != _movedSeen)
        {
            _movedSeen = _moved.Count;
            _movedSupplyWires = _whichWires.Happens(_unit.Connector.SupplyShare);
        }

        if (_connector is null)
        {
            return;
        }

        _connector.Step(StepS, turning);
        if (_connector.Count != _openingsSeen)
        {
            _openingsSeen = _connector.Count;
            _supplyWires = _whichWires.Happens(_unit.Connector.SupplyShare);
        }
    }
}

using Bench.Analysis.Readings;
using Bench.Model.Instruments;
using Bench.Model.Runs;
using Bench.Model.Traces;

namespace Bench.Running.Sampling;

/// <summary>
/// Reads a unit position and takes down what it reads: position every slot, meters every third, since position needs
/// the rate (C5) and current does not. What is pushed is taken whole at every slot, all that came since the last one.
/// </summary>
internal sealed class Sampler(IUnitPosition unit, RunClock clock, Trace trace, IRunJournal journal)
{
    /// <summary>Slots between two meter readings.</summary>
    public const int SlotsPerMeterReading = 3;

    /// <summary>
    /// Least time from slot to slot, seconds. A serial bus is slower by itself. A network can answer within tens of
    /// microseconds: twelve readings are then no line to take a speed from, and hold no more than fewer would.
    /// </summary>
    private const double LeastSlotS = 0.004;

    /// <summary>Longest time between meter readings that is taken for a cycle, seconds; 9600 baud needs a quarter.</summary>
    private const double MostCycleS = 0.3;

    /// <summary>Samples handed to the journal at once: under 200 ms at the rates of a serial bus.</summary>
    private const int Batch = 24;

    /// <summary>How long after a time-out its answer may still come, seconds. Common practice, no source: six time-outs.</summary>
    private const double LateS = 0.25;

    private readonly IPushedReadings<FeedbackReading>? _pushedPosition = unit.Feedback.Pushed;
    private readonly IPushedReadings<MeterReading>? _pushedMeters = unit.Meters.Pushed;
    private readonly OrderedRows _rows = new();
    private bool _aside;
    private double _doubtfulUntilS = double.NegativeInfinity;
    private double _positionToldS;
    private double _metersToldS;
    private DriveState _drive;
    private DriveState _driveBefore;
    private double _offSinceS = double.NegativeInfinity;
    private int _written;
    private int _slot;
    private double _slotBeganS = double.NegativeInfinity;
    private double _meteredS = double.NegativeInfinity;

    /// <summary>
    /// What the drive is commanded to be; stamped on every sample. A pushed reading that comes after the drive went off
    /// and was taken before bears what the drive was.
    /// </summary>
    public DriveState Drive
    {
        get => _drive;
        set
        {
            (_driveBefore, _drive) = (_drive, value);
            _offSinceS = value == DriveState.Off ? clock.NowS : double.NegativeInfinity;
        }
    }

    /// <summary>Whether current comes unasked, so that every slot has new readings of it.</summary>
    public bool MetersPushed => _pushedMeters is not null;

    /// <summary>Greatest current since the slot before the latest, amperes: of what is pushed every reading counts, not the newest alone.</summary>
    public double PeakCurrentA { get; private set; }

    /// <summary>The latest meter reading that was one.</summary>
    public MeterReading Meters { get; private set; }

    /// <summary>Meter readings in a row that failed.</summary>
    public int MeterFailures { get; private set; }

    /// <summary>The latest meter fault; null when the latest reading was one.</summary>
    public DeviceFault? MeterFault { get; private set; }

    /// <summary>The latest position reading.</summary>
    public FeedbackReading Position { get; private set; }

    /// <summary>Time of the latest position reading, seconds.</summary>
    public double PositionS { get; private set; }

    /// <summary>Exchanges with the bench's own devices that have failed so far.</summary>
    public long BenchFailures => unit.Counts.Where(c => !c.IsFeedback).Sum(c => c.Silent + c.Garbled);

    /// <summary>Half-widths of the sampling instants of good readings, drive on.</summary>
    public InstantHalfWidths HalfWidths { get; } = new();

    /// <summary>Position readings in a row that failed while the bench's own devices answered right after.</summary>
    public int WitnessedFailures { get; private set; }

    /// <summary>
    /// Reads the position, and the meters when it is their turn, they failed last time, or the position did: only
    /// then is it known whether the feedback is silent or the whole bus.
    /// </summary>
    /// <returns>Whether the meters were read too.</returns>
    public async ValueTask<bool> SlotAsync(CancellationToken cancel)
    {
        await clock.WaitAsync(_slotBeganS + LeastSlotS - clock.NowS, cancel);
        _slotBeganS = clock.NowS;
        PeakCurrentA = double.NegativeInfinity;
        await ReadPositionAsync(cancel);
        if (_slot++ % SlotsPerMeterReading != 0 && MeterFailures == 0 && Position.Heard)
        {
            TakePushedMeters();
            Release();
            return false;
        }

        await ReadMetersAsync(cancel);
        WitnessedFailures = Position.Heard ? 0 : WitnessedFailures + (MeterFault is null ? 1 : 0);
        double nowS = clock.NowS;

        // Anything longer was a pause between moves, and a failure makes a cycle of its own.
        CycleS = nowS - _meteredS < MostCycleS && Position.Heard && MeterFailures == 0 ? nowS - _meteredS : CycleS;
        _meteredS = nowS;
        return true;
    }

    /// <summary>Time from one meter reading to the next while slots follow each other, seconds; the latest one seen.</summary>
    public double CycleS { get; private set; } = 0.02;

    /// <summary>Reads the position.</summary>
    public async ValueTask ReadPositionAsync(CancellationToken cancel)
    {
        Position = await unit.Feedback.ReadAsync(cancel);
        if (_pushedPosition is null && Position.Heard && Drive != DriveState.Off)
        {
            HalfWidths.Position.Add(Position.AtUncertainty);
        }

        TakePushedPositions();
        // Two devices' estimates of their instants may cross by a fraction of an exchange.
        double readS = clock.At(Position.At);
        PositionS = trace.Count > 0 ? Math.Max(readS, trace[trace.Count - 1].TimeS) : readS;
        if (_pushedPosition is null || !Position.Ok)
        {
            AddPosition(PositionS, Position);
        }

        Release();
    }

    /// <summary>Reads the meters and inputs.</summary>
    public async ValueTask ReadMetersAsync(CancellationToken cancel)
    {
        MeterReading reading = await unit.Meters.ReadAsync(cancel);

        if (reading.Ok && clock.NowS < _doubtfulUntilS)
        {
            // It may be the late answer to a question of before, which a serial line can't tell: ask again.
            reading = await unit.Meters.ReadAsync(cancel);
        }

        MeterFault = reading.Fault;
        if (!reading.Ok)
        {
            MeterFailures++;
            _doubtfulUntilS = clock.NowS + LateS;
            return;
        }

        MeterFailures = 0;
        Meters = reading;
        if (_pushedMeters is null)
        {
            AddMeters(reading);
        }
        else
        {
            // Rows come from what is pushed; one of them will bear the index, which was polled.
            if (!_aside)
            {
                _rows.AddIndex(clock.At(reading.At), State(reading.Index));
            }

            TakePushedMeters();
        }

        Release();
    }

    /// <summary>Hands what is left to the journal.</summary>
    public void Flush()
    {
        Release(everything: true);
        if (trace.Count > _written)
        {
            HandOver();
        }
    }

    private void TakePushedMeters()
    {
        while (_pushedMeters is not null && _pushedMeters.TryTake(out MeterReading reading))
        {
            Meters = Meters with { CurrentA = reading.CurrentA, VoltageV = reading.VoltageV, At = reading.At, AtUncertainty = reading.AtUncertainty };
            AddMeters(reading);
        }
    }

    private void TakePushedPositions()
    {
        while (_pushedPosition is not null && _pushedPosition.TryTake(out FeedbackReading reading))
        {
            if (reading.Heard && Drive != DriveState.Off)
            {
                HalfWidths.Position.Add(reading.AtUncertainty);
            }

            AddPosition(clock.At(reading.At), reading);
        }
    }

    private void AddPosition(double timeS, in FeedbackReading reading)
    {
        _positionToldS = reading.Heard ? timeS : double.PositiveInfinity;
        Add(timeS, reading.Status, reading.Ok ? reading.Count : -1, double.NaN, double.NaN, IndexState.NotSampled);
    }

    private void AddMeters(in MeterReading reading)
    {
        if (Drive != DriveState.Off && reading.AtUncertainty > 0)
        {
            HalfWidths.Meters.Add(reading.AtUncertainty);
        }

        PeakCurrentA = Math.Max(PeakCurrentA, reading.CurrentA);
        _metersToldS = clock.At(reading.At);
        Add(_metersToldS, FeedbackStatus.NotSampled, -1, reading.CurrentA, reading.VoltageV, State(reading.Index));
    }

    private static IndexState State(bool? index) => index switch { true => IndexState.Closed, false => IndexState.Open, _ => IndexState.NotSampled };

    /// <summary>Reads on and takes nothing down until it is disposed of: hands are at the unit, and what is read says nothing of it.</summary>
    public IDisposable Aside() => new Stretch(this);

    private void Add(double timeS, FeedbackStatus status, int count, double currentA, double voltageV, IndexState index)
    {
        if (_aside)
        {
            return;
        }

        DriveState drive = timeS < _offSinceS && (_pushedPosition is not null || _pushedMeters is not null) ? _driveBefore : Drive;
        _rows.Add(new Sample(timeS, drive, status, count, currentA, voltageV, index));
    }

    private void Release(bool everything = false)
    {
        double untilS = double.PositiveInfinity;
        if (!everything)
        {
            // An instrument that fell silent keeps nobody waiting.
            untilS = _pushedPosition is not null && Position.Heard ? Math.Min(untilS, _positionToldS) : untilS;
            untilS = _pushedMeters is not null && MeterFailures == 0 ? Math.Min(untilS, _metersToldS) : untilS;
        }

        _rows.Release(trace, untilS);
        if (trace.Count - _written >= Batch)
        {
            HandOver();
        }
    }

    // A journal that fails has kept the samples all the same; given again they would not be its next.
    private void HandOver()
    {
        int first = _written;
        _written = trace.Count;
        journal.Write(first, trace.Slice(first, trace.Count - first));
    }

    private sealed class Stretch : IDisposable
    {
        private readonly Sampler _sampler;

        public Stretch(Sampler sampler)
        {
            _sampler = sampler;
            sampler._aside = true;
        }

        public void Dispose() => _sampler._aside = false;
    }
}

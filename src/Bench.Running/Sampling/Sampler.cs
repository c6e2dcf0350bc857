using Bench.Analysis.Readings;
using Bench.Model.Instruments;
using Bench.Model.Runs;
using Bench.Model.Traces;

namespace Bench.Running.Sampling;

/// <summary>
/// Reads a unit position and takes down what it reads: position every slot, meters every third, since position needs
/// the rate (C5) and current does not.
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

    private int _written;
    private int _slot;
    private double _slotBeganS = double.NegativeInfinity;
    private double _meteredS = double.NegativeInfinity;

    /// <summary>What the drive is commanded to be; stamped on every sample.</summary>
    public DriveState Drive { get; set; }

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

    /// <summary>Reads the position, and the meters when it is their turn or they failed last time.</summary>
    /// <returns>Whether the meters were read too.</returns>
    public async ValueTask<bool> SlotAsync(CancellationToken cancel)
    {
        await clock.WaitAsync(_slotBeganS + LeastSlotS - clock.NowS, cancel);
        _slotBeganS = clock.NowS;
        await ReadPositionAsync(cancel);
        if (_slot++ % SlotsPerMeterReading != 0 && MeterFailures == 0)
        {
            return false;
        }

        await ReadMetersAsync(cancel);
        double nowS = clock.NowS;

        // Anything longer was a pause between moves or a time-out.
        CycleS = nowS - _meteredS < MostCycleS ? nowS - _meteredS : CycleS;
        _meteredS = nowS;
        return true;
    }

    /// <summary>Time from one meter reading to the next while slots follow each other, seconds; the latest one seen.</summary>
    public double CycleS { get; private set; } = 0.02;

    /// <summary>Reads the position.</summary>
    public async ValueTask ReadPositionAsync(CancellationToken cancel)
    {
        Position = await unit.Feedback.ReadAsync(cancel);
        if (Position.Ok && Drive != DriveState.Off)
        {
            HalfWidths.Position.Add(Position.AtUncertainty);
        }

        PositionS = Take(clock.At(Position.At), Position.Status, Position.Ok ? Position.Count : -1, double.NaN, double.NaN, IndexState.NotSampled);
    }

    /// <summary>Reads the meters and inputs.</summary>
    public async ValueTask ReadMetersAsync(CancellationToken cancel)
    {
        MeterReading reading = await unit.Meters.ReadAsync(cancel);
        MeterFault = reading.Fault;
        if (!reading.Ok)
        {
            MeterFailures++;
            return;
        }

        MeterFailures = 0;
        Meters = reading;
        if (Drive != DriveState.Off && reading.AtUncertainty > 0)
        {
            HalfWidths.Meters.Add(reading.AtUncertainty);
        }

        IndexState index = reading.Index switch { true => IndexState.Closed, false => IndexState.Open, _ => IndexState.NotSampled };
        Take(clock.At(reading.At), FeedbackStatus.NotSampled, -1, reading.CurrentA, reading.VoltageV, index);
    }

    /// <summary>Hands what is left to the journal.</summary>
    public void Flush()
    {
        if (trace.Count > _written)
        {
            journal.Write(_written, trace.Slice(_written, trace.Count - _written));
            _written = trace.Count;
        }
    }

    private double Take(double timeS, FeedbackStatus status, int count, double currentA, double voltageV, IndexState index)
    {
        // Two devices' estimates of their instants may cross by a fraction of an exchange; rows stay in order.
        double ordered = trace.Count > 0 ? Math.Max(timeS, trace[trace.Count - 1].TimeS) : timeS;
        trace.Add(new Sample(ordered, Drive, status, count, currentA, voltageV, index));
        if (trace.Count - _written >= Batch)
        {
            Flush();
        }

        return ordered;
    }
}

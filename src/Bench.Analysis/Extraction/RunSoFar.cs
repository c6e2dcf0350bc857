using Bench.Analysis.Currents;
using Bench.Analysis.Motion;
using Bench.Analysis.Motor;
using Bench.Analysis.Readings;
using Bench.Analysis.Ripple;
using Bench.Analysis.ShaftIndex;
using Bench.Model.Features;
using Bench.Model.Moves;

namespace Bench.Analysis.Extraction;

/// <summary>What the moves of a run have given so far.</summary>
internal sealed class RunSoFar
{
    private double _onS;
    private long _attempts;
    private double _meterS;
    private long _meterRows;

    /// <summary>Moves in order.</summary>
    public List<Move> Moves { get; } = [];

    /// <summary>Their features.</summary>
    public List<MoveFeatures> Features { get; } = [];

    /// <summary>What each was if the count stood still.</summary>
    public List<StillMove> Still { get; } = [];

    /// <summary>Moves made to provoke a fault, in order, and what each was if the count stood still.</summary>
    public List<(Move Move, StillMove Still)> Provoked { get; } = [];

    /// <summary>Means over the steady parts of those that turned.</summary>
    public List<SteadyMeans> Means { get; } = [];

    /// <summary>As <see cref="Means"/>, of moves made at another supply to provoke a fault: the motor's constants are the same there (C9).</summary>
    public List<SteadyMeans> OtherSupply { get; } = [];

    /// <summary>As <see cref="Means"/>, of moves made with the winding warm.</summary>
    public List<SteadyMeans> Warm { get; } = [];

    /// <summary>Passes of the index, unwrapped over the run.</summary>
    public List<IndexPass> Passes { get; } = [];

    /// <summary>Seats passed, where the profile asks for them.</summary>
    public List<SeatPass> Seats { get; } = [];

    /// <summary>Travels by ripple of the current, where the profile asks for them.</summary>
    public List<RippleTravel> Ripples { get; } = [];

    /// <summary>Times between readings while the drive was on.</summary>
    public ReadingIntervals Intervals { get; } = new();

    /// <summary>Position readings tried per second while the drive was on; null with no moves.</summary>
    public double? PositionRateHz => _onS > 0 ? _attempts / _onS : null;

    /// <summary>Meter readings per second in moves; null with none.</summary>
    public double? MeterRateHz => _meterS > 0 ? _meterRows / _meterS : null;

    /// <summary>Adds a move.</summary>
    public void Add(Move move, MoveFeatures features, MoveExtraction extraction, List<IndexPass> passes)
    {
        Moves.Add(move);
        Features.Add(features);
        Still.Add(extraction.Still);
        Passes.AddRange(passes);
        if (extraction.Means is { } means)
        {
            Means.Add(means);
        }

        _onS += features.OnS;
        _attempts += extraction.AttemptsOn;
        if (extraction.Rows.Length > 1)
        {
            _meterS += extraction.Rows.Times[^1] - extraction.Rows.Times[0];
            _meterRows += extraction.Rows.Length - 1;
        }
    }

    /// <summary>A value of every move that has it.</summary>
    public double[] Each(Func<MoveFeatures, double?> value) => [.. Features.Select(value).OfType<double>()];
}

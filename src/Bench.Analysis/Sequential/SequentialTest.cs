using Bench.Analysis.Statistics;
using Bench.Model.Features;
using Bench.Model.Profiles;

namespace Bench.Analysis.Sequential;

/// <summary>
/// Wald's sequential probability ratio test on passed and failed moves (C11). Between its boundaries it goes on; a
/// demonstration once reached stands unless later failures carry the path over the upper boundary; a refutation stands.
/// </summary>
public sealed class SequentialTest
{
    private readonly Demonstration _plan;
    private readonly double _failStep;
    private readonly double _passStep;
    private readonly double _acceptAt;
    private readonly double _rejectAt;
    private readonly List<double> _path = [];
    private int _failed;
    private SequentialState _decided = SequentialState.Continue;

    /// <summary>Begins a test.</summary>
    /// <param name="plan">p0 and p1 with 0 &lt; p0 &lt; p1 &lt; 1; alpha and beta inside (0, 1).</param>
    /// <exception cref="ArgumentException">The plan does not hold these.</exception>
    public SequentialTest(Demonstration plan)
    {
        ArgumentNullException.ThrowIfNull(plan);
        if (!(plan.P0 > 0 && plan.P1 > plan.P0 && plan.P1 < 1 && plan.Alpha is > 0 and < 1 && plan.Beta is > 0 and < 1))
        {
            throw new ArgumentException("a sequential test needs 0 < p0 < p1 < 1 and alpha and beta inside (0, 1)", nameof(plan));
        }

        _plan = plan;
        _failStep = Math.Log(plan.P1 / plan.P0);
        _passStep = Math.Log((1 - plan.P1) / (1 - plan.P0));
        _acceptAt = Math.Log(plan.Beta / (1 - plan.Alpha));
        _rejectAt = Math.Log((1 - plan.Beta) / plan.Alpha);
    }

    /// <summary>Log likelihood ratio after so many failed and passed moves.</summary>
    internal double RatioOf(int failed, int passed) => (failed * _failStep) + (passed * _passStep);

    /// <summary>What a log likelihood ratio decides when a test stands at it.</summary>
    internal SequentialState At(double ratio) =>
        ratio >= _rejectAt ? SequentialState.Refuted : ratio <= _acceptAt ? SequentialState.Shown : SequentialState.Continue;

    /// <summary>Moves counted.</summary>
    public int Moves => _path.Count;

    /// <summary>Log likelihood ratio so far.</summary>
    public double LogRatio => _path.Count == 0 ? 0 : _path[^1];

    /// <summary>Where the test stands.</summary>
    public SequentialState State =>
        _decided == SequentialState.Continue && Moves >= _plan.MostMoves ? SequentialState.Truncated : _decided;

    /// <summary>Further moves, all passed, that would reach the demonstration; 0 when it is reached.</summary>
    public int MovesToGo => _decided == SequentialState.Shown ? 0 : ToGo(LogRatio, _acceptAt, _passStep);

    /// <summary>Counts a move.</summary>
    public void Add(bool passed)
    {
        _failed += passed ? 0 : 1;
        double now = LogRatio + (passed ? _passStep : _failStep);
        _path.Add(now);
        if (_decided == SequentialState.Refuted || Moves > _plan.MostMoves)
        {
            return;
        }

        SequentialState state = At(now);
        _decided = state == SequentialState.Continue ? _decided : state;
    }

    /// <summary>The result so far.</summary>
    public DemonstrationResult Result() => new()
    {
        Moves = Moves,
        Failed = _failed,
        Path = [.. _path],
        AcceptAt = _acceptAt,
        RejectAt = _rejectAt,
        Plan = TestPlan.Of(_plan),
        State = State,
        UpperLimit95 = Moves == 0 ? null : BinomialLimits.Upper(_failed, Moves, 0.95),
        ExpectedMovesAtP0 = ExpectedMoves(_plan.P0, 1 - _plan.Alpha),
    };

    /// <summary>Expected moves of a unit at p1 (Wald's approximation).</summary>
    public double ExpectedMovesAtP1 => ExpectedMoves(_plan.P1, _plan.Beta);

    /// <summary>Passed moves that carry a path at <paramref name="logRatio"/> to the lower boundary.</summary>
    internal static int ToGo(double logRatio, double acceptAt, double passStep) =>
        Math.Max(0, (int)Math.Ceiling((acceptAt - logRatio) / passStep));

    // Wald 1947: E(n) = (L ln B + (1 - L) ln A) / E(step), L the chance of acceptance.
    private double ExpectedMoves(double p, double acceptance) =>
        ((acceptance * _acceptAt) + ((1 - acceptance) * _rejectAt)) / ((p * _failStep) + ((1 - p) * _passStep));
}

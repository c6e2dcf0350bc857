using Bench.Analysis.Extraction;
using Bench.Analysis.Feedback;
using Bench.Analysis.Motion;
using Bench.Analysis.Sequential;
using Bench.Analysis.Statistics;
using Bench.Model.Features;
using Bench.Model.Instruments;
using Bench.Model.Moves;
using Bench.Model.Profiles;

namespace Bench.Analysis.Provoking;

/// <summary>
/// The sequential tests of stages that provoke, each counted apart (C11): moves made to bring a fault out are no sample of
/// the moves of a unit in use, so they must not count in the demonstration nor in any feature of the unit as it is used.
/// </summary>
internal sealed class ProvokedTests(Profile profile)
{
    private readonly Dictionary<StageKind, SequentialTest> _tests = [];
    private readonly Dictionary<StageKind, List<(int Number, DriveDirection Way, StillMove Still)>> _moves = [];
    private IReadOnlyList<ConnectorDropout>? _dropouts;

    /// <summary>The test of a stage of the profile's routine.</summary>
    /// <exception cref="ArgumentException">The routine has no such stage, or it does not provoke.</exception>
    public SequentialTest Of(StageKind kind)
    {
        if (!_tests.TryGetValue(kind, out SequentialTest? test))
        {
            Stage stage = profile.Routine.FirstOrDefault(s => s.Kind == kind && kind.Provokes())
                ?? throw new ArgumentException($"the routine of profile {profile.Family} provokes nothing in a {kind} stage", nameof(kind));
            _tests[kind] = test = new SequentialTest(stage.Plan(profile.Demonstration));
        }

        return test;
    }

    /// <summary>Counts a second in which a person moved the connector.</summary>
    public void AddSecond(bool passed) => Of(StageKind.Connector).Add(passed);

    /// <summary>Keeps when the connector opened.</summary>
    public void Keep(IReadOnlyList<ConnectorDropout> dropouts) => _dropouts = dropouts;

    /// <summary>Counts a move.</summary>
    /// <param name="move">The move.</param>
    /// <param name="features">What was made of it.</param>
    /// <param name="still">What it was if it did not turn.</param>
    public void Add(Move move, MoveFeatures features, StillMove still)
    {
        if (!features.Counts)
        {
            return;
        }

        Of(move.Stage).Add(features.Passed);
        if (!_moves.TryGetValue(move.Stage, out List<(int, DriveDirection, StillMove)>? moves))
        {
            _moves[move.Stage] = moves = [];
        }

        moves.Add((move.Number, move.Direction, still));
    }

    /// <summary>The results in the order of the stages; null when none was run.</summary>
    public IReadOnlyList<ProvocationResult>? Results() => _tests.Count == 0 ? null : [.. _tests.Select(t => Result(t.Key, t.Value))];

    /// <summary>How many moves failed, of each stage whose feature the profile names; what the bench may have done itself is none of the unit's.</summary>
    /// <param name="link">Condition of the bench's links.</param>
    public IEnumerable<Feature> Features(LinkCondition link)
    {
        foreach (StageKind kind in Enum.GetValues<StageKind>().Where(k => k.Provokes() && profile.Names(ProvokedFeatures.Of(k))))
        {
            yield return !_tests.TryGetValue(kind, out SequentialTest? test) || test.Moves == 0
                ? Feature.Missing(ProvokedFeatures.Of(kind), "the stage that provokes it was not run")
                : test.Result().Failed > 0 && (link.Because ?? link.Doubt ?? PathDoubt(kind)) is string because
                    ? Feature.Missing(ProvokedFeatures.Of(kind), because)
                    : Feature.Of(ProvokedFeatures.Of(kind), test.Result().Failed, 0, test.Moves);
        }
    }

    // A winding that opens when it is warm stays open until it has cooled: that its current does not come back tells nothing there.
    private string? PathDoubt(StageKind kind) =>
        kind != StageKind.Warm && _moves.TryGetValue(kind, out List<(int, DriveDirection, StillMove)>? moves) ? CurrentPath.Doubt(moves) : null;

    private ProvocationResult Result(StageKind kind, SequentialTest test)
    {
        DemonstrationResult result = test.Result();
        return new ProvocationResult
        {
            Stage = kind,
            Test = result,
            Dropouts = kind == StageKind.Connector ? _dropouts : null,
            LowerLimit95 = result.Moves == 0 ? null : BinomialLimits.Lower(result.Failed, result.Moves, 0.95),
        };
    }
}

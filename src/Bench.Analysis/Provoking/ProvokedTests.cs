using Bench.Analysis.Extraction;
using Bench.Analysis.Sequential;
using Bench.Analysis.Statistics;
using Bench.Model.Features;
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
    private readonly HashSet<StageKind> _drewNone = [];
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

    /// <summary>Counts a move, as long as the stage's test has no answer: those after it look for something else.</summary>
    /// <param name="kind">The stage.</param>
    /// <param name="move">The move.</param>
    /// <param name="drewNone">Whether it stood still without current.</param>
    public void Add(StageKind kind, MoveFeatures move, bool drewNone)
    {
        if (move.Counts && Of(kind).State is SequentialState.Continue)
        {
            Of(kind).Add(move.Passed);
        }

        if (drewNone)
        {
            _drewNone.Add(kind);
        }
    }

    /// <summary>The results in the order of the stages; null when none was run.</summary>
    public IReadOnlyList<ProvocationResult>? Results() => _tests.Count == 0 ? null : [.. _tests.Select(t => Result(t.Key, t.Value))];

    /// <summary>How many moves failed, of each stage whose feature the profile names.</summary>
    /// <param name="doubt">Why moves without current may be the bench's; null when they are the unit's.</param>
    public IEnumerable<Feature> Features(string? doubt)
    {
        foreach (StageKind kind in Enum.GetValues<StageKind>().Where(k => k.Provokes() && profile.Names(ProvokedFeatures.Of(k))))
        {
            yield return doubt is not null && _drewNone.Contains(kind) ? Feature.Missing(ProvokedFeatures.Of(kind), doubt)
                : _tests.TryGetValue(kind, out SequentialTest? test) && test.Moves > 0 ? Feature.Of(ProvokedFeatures.Of(kind), test.Result().Failed, 0, test.Moves)
                : Feature.Missing(ProvokedFeatures.Of(kind), ProvokedFeatures.NotRun);
        }
    }

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

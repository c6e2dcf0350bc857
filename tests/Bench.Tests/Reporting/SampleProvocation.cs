using Bench.Model.Features;
using Bench.Model.Instruments;
using Bench.Model.Moves;
using Bench.Model.Profiles;
using Bench.Model.Runs;

namespace Bench.Tests.Reporting;

/// <summary>A run that provoked: the greatest supply and short starts brought out nothing, the connector did, two stages were not run.</summary>
internal static class SampleProvocation
{
    public static SealedRun Run()
    {
        SealedRun run = SampleRun.Healthy().Run;
        RunRecord record = run.Record;
        RunFeatures features = record.Features!;
        return run with
        {
            Record = record with
            {
                Start = record.Start with
                {
                    Profile = record.Start.Profile with
                    {
                        Routine = [.. new[] { StageKind.Starts, StageKind.LowSupply, StageKind.HighSupply, StageKind.Connector, StageKind.Warm }
                            .Select(k => new Stage { Kind = k, MostS = 120, MostMoves = 40, SettleMs = 350, P0 = 0.005, P1 = 0.2 })],
                    },
                },
                Events =
                [
                    .. record.Events,
                    new(400, RunEventKind.Note, StageNotes.LeftOut(StageKind.LowSupply, "20.5 V is asked for, and the bench file allows the supply 21.0 to 30.0 V")),
                    new(401, RunEventKind.Stage, StageNotes.Begins(StageKind.HighSupply)),
                    new(401.2, RunEventKind.OutputCommand, StageNotes.SupplySet(28.6567)),
                    new(401.3, RunEventKind.OutputResult, StageNotes.SupplyReadBack(28.6567)),
                    new(440, RunEventKind.Stage, StageNotes.Begins(StageKind.Starts)),
                    new(480, RunEventKind.Stage, StageNotes.Begins(StageKind.Connector)),
                    new(511, RunEventKind.Note, StageNotes.ConnectorMoved + "6 whole seconds, 2 dropouts; its test has an answer"),
                    new(512, RunEventKind.Note, StageNotes.LeftOut(StageKind.Warm, "the cause is clear without it: loose feedback connector")),
                ],
                Features = features with
                {
                    Moves =
                    [
                        .. features.Moves,
                        .. Enumerable.Range(38, 14).Select(n => Move(n, StageKind.HighSupply) with { LoadedVoltageV = 28.41 }),
                        Move(52, StageKind.Starts) with { Passed = false, End = MoveEnd.NoCurrent, FailedBecause = "no current flowed" },
                    ],
                    Provocations =
                    [
                        Of(StageKind.HighSupply, 14, 0, SequentialState.Shown, null),
                        Of(StageKind.Starts, 9, 1, SequentialState.Continue, null),
                        Of(StageKind.Connector, 6, 2, SequentialState.Refuted, [new(ConnectorPair.Feedback, 503.118, 0.214), new(ConnectorPair.Supply, 505.9, 0.083)]),
                    ],
                },
            },
        };
    }

    private static MoveFeatures Move(int number, StageKind kind) => new()
    {
        Number = number,
        Stage = kind,
        FromPort = "A",
        ToPort = "B",
        Direction = DriveDirection.Up,
        End = MoveEnd.Landed,
        OnS = 1.2,
        Passed = true,
        Counts = false,
    };

    private static ProvocationResult Of(StageKind kind, int moves, int failed, SequentialState state, IReadOnlyList<ConnectorDropout>? dropouts) => new()
    {
        Stage = kind,
        Dropouts = dropouts,
        LowerLimit95 = failed == 0 ? 0 : 0.06,
        Test = new DemonstrationResult
        {
            Moves = moves,
            Failed = failed,
            Path = [],
            AcceptAt = -2.9,
            RejectAt = 2.9,
            State = state,
            UpperLimit95 = failed == 0 ? 0.193 : 0.73,
            ExpectedMovesAtP0 = 15,
        },
    };
}

using Bench.Analysis.Extraction;
using Bench.Analysis.Provoking;
using Bench.Analysis.Sequential;
using Bench.Model.Features;
using Bench.Model.Moves;
using Bench.Model.Profiles;
using Bench.Model.Runs;
using Bench.Model.Serialization;
using Bench.Running.Hands;
using Bench.Running.Safety;
using Bench.Running.Sampling;

namespace Bench.Running.Stages;

/// <summary>
/// Provocation: a person moves connector and cable, the drive off and the gate closed, while feedback and supply are watched. It
/// ends when its test has an answer, its time is over or the person stops; then hands are off before anything else.
/// </summary>
internal sealed class ConnectorStage(
    Profile profile, HandsAtUnit hands, SafetyGate gate, Sampler sampler, RunExtraction extraction, RunBook book, RunClock clock, StageReport report)
    : IStageRunner
{
    /// <summary>Dropouts told one by one.</summary>
    private const int MostTold = 20;

    private const string StaysClosed = "the gate stays closed, for hands may be at the unit";

    private long _meteredAt;

    /// <inheritdoc/>
    public StageKind Kind => StageKind.Connector;

    /// <inheritdoc/>
    public string? Unavailable => hands.CanAsk(HandWork.ApproachConnector) ? null : "nobody is there to move the connector";

    /// <inheritdoc/>
    public async ValueTask<string?> RunAsync(Stage stage, CancellationToken cancel)
    {
        report.Begin(stage, "a person moves the connector, to provoke the fault");
        await hands.CloseAsync(ConnectorTasks.Approach.ToBe);
        await gate.SwitchOffAsync();
        if (!await hands.AnsweredAsync(ConnectorTasks.Approach, cancel))
        {
            return StaysClosed;
        }

        ConnectorWatch watch = new(clock.NowS, profile.Electrical.SupplyMinV / 2);
        double untilS = clock.NowS + stage.MostS;
        bool stopped = await hands.WatchAsync(ConnectorTasks.Disturb, () => Look(stage, watch, untilS), cancel);
        watch.End();
        extraction.KeepDropouts(watch.Dropouts);
        Tell(stage, watch, stopped);
        if (!await hands.AnsweredAsync(ConnectorTasks.Leave, cancel))
        {
            return StaysClosed;
        }

        await hands.ReopenAsync(ConnectorTasks.Leave.Done);
        return null;
    }

    private bool Look(Stage stage, ConnectorWatch watch, double untilS)
    {
        SequentialTest test = extraction.Provoked(stage.Kind);
        bool witnessed = sampler.MeterFault is null;
        double? supplyV = sampler.Meters.At != _meteredAt ? sampler.Meters.VoltageV : null;
        _meteredAt = sampler.Meters.At;
        foreach (bool passed in watch.Take(sampler.PositionS, sampler.Position.Heard, witnessed, supplyV))
        {
            if (test.State == SequentialState.Continue)
            {
                extraction.AddConnectorSecond(passed);
            }
        }

        return test.State != SequentialState.Continue || clock.NowS >= untilS;
    }

    private void Tell(Stage stage, ConnectorWatch watch, bool stopped)
    {
        SequentialTest test = extraction.Provoked(stage.Kind);
        foreach (ConnectorDropout dropout in watch.Dropouts.Take(MostTold))
        {
            book.Write(RunEventKind.Note, FormattableString.Invariant(
                $"{BenchJson.Word(dropout.Pair)} dropped out at {dropout.AtS:0.000} s for {dropout.LengthS:0.000} s while the connector was moved"));
        }

        string ended = test.State is SequentialState.Shown or SequentialState.Refuted ? "its test has an answer" : stopped ? "the person stopped" : "its time was over";
        book.Write(RunEventKind.Note, FormattableString.Invariant(
            $"{StageNotes.ConnectorMoved}{test.Moves} whole seconds, {watch.Dropouts.Count} dropouts; {ended}. With the drive off no current flows in the supply's wires: contact was watched in the feedback's, voltage in the supply's"));
    }
}

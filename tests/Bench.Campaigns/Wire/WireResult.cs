using Bench.Model.Judging;
using Bench.Model.Runs;
using Bench.Simulation.Faults;

namespace Bench.Campaigns.Wire;

/// <summary>One run of the campaign, looked at.</summary>
/// <param name="Seed">Seed of the run.</param>
/// <param name="Rig">Family and bench.</param>
/// <param name="Plan">Its faults.</param>
/// <param name="Witness">What was seen from outside.</param>
/// <param name="Record">The record; null when the run threw or nothing could be written.</param>
/// <param name="Hash">Hash of trace and record.</param>
/// <param name="Violations">What the oracle found.</param>
public sealed record WireResult(
    ulong Seed, Rig Rig, FaultPlan Plan, Witness Witness, RunRecord? Record, byte[] Hash, IReadOnlyList<Violation> Violations)
{
    /// <summary>How it came out, in a word.</summary>
    public string Outcome => Record switch
    {
        null when Violations.Any(v => v.Rule == "threw") => "threw",
        null => "record unwritable",
        { Abort: { } abort } => $"aborted: {abort}",
        { Judgement.Disposition: { } disposition } => $"judged: {disposition}",
        _ => "held",
    };

    /// <summary>Whether the healthy unit was condemned for what the bench did.</summary>
    public bool Condemned => Violations.Any(v => v.Rule == Oracle.Condemned);

    /// <summary>Whether a finding on the feedback was made in a run that had faults on the feedback's own wires.</summary>
    public bool BlamedFeedback => !Condemned && Record?.Judgement?.Disposition is Disposition.Scrap or Disposition.Repairable;
}

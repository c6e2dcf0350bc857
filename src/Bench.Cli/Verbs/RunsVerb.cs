using System.CommandLine;
using Bench.Cli.Output;
using Bench.Model.Serialization;
using Bench.Records;
using Bench.Records.Runs;

namespace Bench.Cli.Verbs;

/// <summary><c>bench runs</c>: lists runs, newest first.</summary>
internal static class RunsVerb
{
    /// <summary>Gives the verb its options and action.</summary>
    public static void Fill(Command command)
    {
        command.SetGuardedAction(ListAsync);
    }

    private static Task<int> ListAsync(ParseResult options)
    {
        using RecordStore store = StoreAccess.OpenExisting(options);
        IReadOnlyList<RunSummary> runs = store.List();
        if (options.GetValue(CommonOptions.Json))
        {
            Terminal.Json(runs);
            return Task.FromResult(ExitCode.Done);
        }

        if (runs.Count == 0)
        {
            Terminal.Say("No runs yet: 'bench demo' makes some, 'bench run' tests a unit.");
            return Task.FromResult(ExitCode.Done);
        }

        Terminal.Result($"{"run",-36}  {"started (UTC)",-16}  {"serial",-16}  {"outcome",-9}  {"disposition",-11}  {"claim",-14}  said later");
        foreach (RunSummary run in runs)
        {
            string outcome = run.Outcome is { } o ? BenchJson.Word(o) : "open";
            string disposition = run.Disposition is { } d ? BenchJson.Word(d) : "-";
            string claim = run.Claim is { } c ? BenchJson.Word(c) : "-";
            Terminal.Result($"{run.Id,-36}  {run.StartedAt.UtcDateTime:yyyy-MM-dd HH:mm}  {run.Serial,-16}  {outcome,-9}  {disposition,-11}  {claim,-14}  {Later(run)}".TrimEnd());
        }

        return Task.FromResult(ExitCode.Done);
    }

    private static string Later(RunSummary run) => (run.Corrected, run.SignedOff) switch
    {
        (false, SignOffState.None) => "",
        (true, SignOffState.None) => "corrected",
        (_, SignOffState.Older) => "changed after its sign-off",
        (true, _) => "corrected, signed off",
        _ => "signed off",
    };
}

using System.CommandLine;
using Bench.Cli.Output;
using Bench.Model.Serialization;
using Bench.Records;
using Bench.Records.Runs;

namespace Bench.Cli.Verbs;

/// <summary><c>bench runs</c>: lists runs, newest first.</summary>
internal static class RunsVerb
{
    /// <summary>Most lines on a page that did not ask for more: an archive of years would scroll away.</summary>
    private const int PageLines = 100;

    private static readonly Option<int?> LimitOption = new("--limit")
    {
        Description = $"At most so many, the newest ({PageLines} without; with --json all)",
        HelpName = "N",
        CustomParser = argument => WholeOption.Read(argument, least: 1),
    };

    private static readonly Option<int?> SkipOption = new("--skip")
    {
        Description = "Pass over so many of the newest",
        HelpName = "N",
        CustomParser = argument => WholeOption.Read(argument, least: 0),
    };

    /// <summary>Gives the verb its options and action.</summary>
    public static void Fill(Command command)
    {
        RunFilterOptions.AddTo(command);
        command.Add(LimitOption);
        command.Add(SkipOption);
        command.SetGuardedAction(ListAsync);
    }

    private static Task<int> ListAsync(ParseResult options)
    {
        bool json = options.GetValue(CommonOptions.Json);
        RunFilter filter = RunFilterOptions.Read(options) with
        {
            Most = options.GetValue(LimitOption) ?? (json ? null : PageLines),
            Skip = options.GetValue(SkipOption) ?? 0,
        };
        using RecordStore store = StoreAccess.OpenToRead(options);
        IReadOnlyList<RunSummary> runs = store.List(filter);
        if (json)
        {
            Terminal.Json(runs);
            return Task.FromResult(ExitCode.Done);
        }

        int all = runs.Count < filter.Most && (runs.Count > 0 || filter.Skip == 0) ? filter.Skip + runs.Count : store.Count(filter);
        Write(runs);
        SayRest(options, filter, runs.Count, all);
        return Task.FromResult(ExitCode.Done);
    }

    private static void Write(IReadOnlyList<RunSummary> runs)
    {
        if (runs.Count == 0)
        {
            return;
        }

        Terminal.Result($"{"run",-36}  {"started (UTC)",-16}  {"serial",-16}  {"outcome",-9}  {"disposition",-11}  {"claim",-14}  said later");
        foreach (RunSummary run in runs)
        {
            string outcome = run.Outcome is { } o ? BenchJson.Word(o) : "open";
            string disposition = run.Disposition is { } d ? BenchJson.Word(d) : "-";
            string claim = run.Claim is { } c ? BenchJson.Word(c) : "-";
            Terminal.Result($"{run.Id,-36}  {run.StartedAt.UtcDateTime:yyyy-MM-dd HH:mm}  {run.Serial,-16}  {outcome,-9}  {disposition,-11}  {claim,-14}  {Later(run)}".TrimEnd());
        }
    }

    private static void SayRest(ParseResult options, RunFilter filter, int shown, int all)
    {
        IReadOnlyList<string> asked = RunFilterOptions.Given(options);
        if (all == 0)
        {
            Terminal.Say(asked.Count == 0
                ? "No runs yet: 'bench demo' makes some, 'bench run' tests a unit."
                : $"No runs that match {string.Join(", ", asked)}; leave one out to see more.");
        }
        else if (shown == 0)
        {
            Terminal.Say($"--skip {filter.Skip} passes over all {all} runs.");
        }
        else if (shown < all)
        {
            int next = filter.Skip + shown;
            Terminal.Say($"Runs {filter.Skip + 1} to {next} of {all}, newest first{(next < all ? $"; --skip {next} goes on" : "")}.");
        }
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

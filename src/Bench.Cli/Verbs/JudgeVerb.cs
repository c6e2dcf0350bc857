using System.CommandLine;
using Bench.Analysis.Judging;
using Bench.Cli.Output;
using Bench.Model.Judging;
using Bench.Model.Profiles;
using Bench.Model.Runs;
using Bench.Records;
using Bench.Records.Keys;
using Bench.Reporting.Text;

namespace Bench.Cli.Verbs;

/// <summary><c>bench judge</c>: judges a stored run again, under its own or another profile.</summary>
internal static class JudgeVerb
{
    private static readonly Option<string?> ProfileOption = new("--profile") { Description = "Profile to judge by (default: the run's own)", HelpName = "FILE" };

    /// <summary>Gives the verb its options and action.</summary>
    public static void Fill(Command command)
    {
        command.Add(StoreAccess.RunArgument);
        command.Add(ProfileOption);
        command.SetGuardedAction(JudgeAsync);
    }

    private static Task<int> JudgeAsync(ParseResult options)
    {
        using BenchKey? key = KeyFile.Load();
        using RecordStore store = StoreAccess.OpenExisting(options, key);
        SealedRun run = StoreAccess.Find(store, options);
        RunRecord record = run.Record;
        if (record.Judgement is null)
        {
            throw new CliException(ExitCode.BadInput, $"run {record.Start.Id} was aborted ({record.AbortText}); there is nothing to judge. Test the unit again.");
        }

        Profile profile = options.GetValue(ProfileOption) is { } path ? UserFiles.Profile(path) : record.Start.Profile;
        if (profile.Family != record.Start.Profile.Family)
        {
            throw new CliException(ExitCode.BadInput, $"{profile.Family} is another family than the run's ({record.Start.Profile.Family}); choose a version of the unit's own profile");
        }

        Judgement judgement = record.Features is { } features
            ? Judge.Decide(features, profile, run.Return)
            : Judge.DecideUntested(profile, run.Return);
        store.AddJudgement(record.Start.Id, judgement, profile.Version, profile.Sha256);
        if (options.GetValue(CommonOptions.Json))
        {
            Terminal.Json(RunJson.Of(record, judgement) with { Serial = run.Return.Serial });
        }
        else
        {
            Terminal.Result(VerdictText.Write(run with { Record = record with { Judgement = judgement, Outcome = judgement.Outcome } }, Terminal.Width));
        }

        return Task.FromResult(judgement.Outcome == RunOutcome.Held ? ExitCode.Held : ExitCode.Done);
    }
}

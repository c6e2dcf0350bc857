using System.CommandLine;
using Bench.Cli.Output;
using Bench.Records;
using Bench.Records.Keys;
using Bench.Records.Retention;

namespace Bench.Cli.Verbs;

/// <summary><c>bench retain</c>: drops the traces of old runs by policy; their records and the traces' hashes stay.</summary>
internal static class RetainVerb
{
    private static readonly Option<int> DaysOption = new("--older-than") { Description = "Traces of runs that began more than so many days ago may go; 1 or more", HelpName = "DAYS", Required = true };
    private static readonly Option<string> BecauseOption = new("--because") { Description = "The policy, in a sentence", HelpName = "TEXT", Required = true };
    private static readonly Option<string> ByOption = new("--by") { Description = "Your name", HelpName = "NAME", Required = true };
    private static readonly Option<bool> ApplyOption = new("--apply") { Description = "Drop them; without it they are only listed" };

    /// <summary>Gives the verb its options and action.</summary>
    public static void Fill(Command command)
    {
        command.Add(DaysOption);
        command.Add(BecauseOption);
        command.Add(ByOption);
        command.Add(ApplyOption);
        command.SetGuardedAction(RetainAsync);
    }

    private static Task<int> RetainAsync(ParseResult options)
    {
        int days = options.GetRequiredValue(DaysOption);
        if (days is < 1 or > MostDays)
        {
            throw new CliException(ExitCode.BadInput, $"--older-than {days}: give 1 to {MostDays} days");
        }

        string because = SpokenText.Read(options, BecauseOption);
        string by = SpokenText.Read(options, ByOption);
        bool apply = options.GetValue(ApplyOption);
        using BenchKey? key = apply ? KeyFile.Load() : null;
        using RecordStore store = StoreAccess.OpenExisting(options, key);
        IReadOnlyList<OldTrace> traces = apply ? store.DropTraces(days, because, by) : store.OldTraces(days);
        if (options.GetValue(CommonOptions.Json))
        {
            Terminal.Json(new { Dropped = apply, Traces = traces });
            return Task.FromResult(ExitCode.Done);
        }

        foreach (OldTrace trace in traces)
        {
            Terminal.Result($"{trace.Run}  {trace.StartedAt.UtcDateTime:yyyy-MM-dd}  {trace.Serial,-16}  {trace.Bytes,12} bytes");
        }

        Terminal.Result($"{traces.Count} traces of {traces.Sum(t => t.Bytes)} bytes {(apply ? "dropped; their records and hashes stay." : "would be dropped.")}");
        if (!apply && traces.Count > 0)
        {
            Terminal.Say("Nothing was dropped. A dropped trace can't be plotted or measured again; make a backup first, then repeat with --apply.");
        }

        return Task.FromResult(ExitCode.Done);
    }

    private const int MostDays = 36500;
}

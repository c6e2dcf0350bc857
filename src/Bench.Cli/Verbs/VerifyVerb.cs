using System.CommandLine;
using Bench.Cli.Output;
using Bench.Records;
using Bench.Records.Integrity;
using Bench.Records.Runs;

namespace Bench.Cli.Verbs;

/// <summary><c>bench verify</c>: finds any altered, missing or reordered record or trace file.</summary>
internal static class VerifyVerb
{
    /// <summary>Gives the verb its options and action.</summary>
    public static void Fill(Command command) => command.SetGuardedAction(VerifyAsync);

    private static Task<int> VerifyAsync(ParseResult options)
    {
        using RecordStore store = StoreAccess.OpenExisting(options);
        IReadOnlyList<IntegrityProblem> problems = store.Verify();
        int runs = store.Count(new RunFilter { Open = false });
        if (options.GetValue(CommonOptions.Json))
        {
            Terminal.Json(new { Runs = runs, Problems = problems });
        }
        else
        {
            foreach (IntegrityProblem problem in problems)
            {
                Terminal.Result(problem.Text);
            }

            Terminal.Result(problems.Count == 0
                ? $"{runs} sealed runs: records, order and trace files are as they were sealed."
                : $"{problems.Count} problems in {runs} sealed runs. Restore the data folder from a copy made before; keep this one as evidence.");
        }

        return Task.FromResult(problems.Count == 0 ? ExitCode.Done : ExitCode.BenchFault);
    }
}

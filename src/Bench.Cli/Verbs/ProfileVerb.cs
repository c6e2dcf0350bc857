using System.CommandLine;
using Bench.Analysis.Sequential;
using Bench.Cli.Output;
using Bench.Model.Moves;
using Bench.Model.Profiles;
using Bench.Model.Serialization;

namespace Bench.Cli.Verbs;

/// <summary><c>bench profile</c>: work on profiles.</summary>
internal static class ProfileVerb
{
    private static readonly Argument<string[]> FilesArgument = new("FILE") { Description = "Profiles to check (TOML)", Arity = ArgumentArity.OneOrMore };

    /// <summary>Gives the verb its options and action.</summary>
    public static void Fill(Command command)
    {
        Command check = new("check", "Read profiles and report every error at once") { FilesArgument };
        check.SetGuardedAction(CheckAsync);
        command.Add(check);
    }

    private static Task<int> CheckAsync(ParseResult options)
    {
        List<object> results = [];
        List<Bench.Model.Configuration.ConfigurationError> errors = [];
        bool json = options.GetValue(CommonOptions.Json);
        foreach (string path in options.GetRequiredValue(FilesArgument))
        {
            try
            {
                Profile profile = UserFiles.Profile(path);
                results.Add(new { File = path, profile.Family, profile.Version, profile.Sha256, Plan = TestPlan.Of(profile.Demonstration), Provocations = profile.Routine.Where(s => s.Kind.Provokes()).Select(s => new { Stage = s.Kind, Plan = TestPlan.Of(s.Plan(profile.Demonstration)) }).ToArray() });
                if (!json)
                {
                    Terminal.Result($"{path}: {profile.Title}, version {profile.Version}: {profile.Ports.Count} ports on a ring of {profile.Ring.Counts}, {BenchJson.Word(profile.Drive)} drive, {profile.Limits.Count} limits, {profile.FaultModes.Count} fault modes; no errors.");
                    foreach (string line in PlanLine.AllOf(profile))
                    {
                        Terminal.Result($"  {line}.");
                    }
                }
            }
            catch (Bench.Model.Configuration.ConfigurationException e)
            {
                errors.AddRange(e.Errors);
            }
        }

        if (json)
        {
            Terminal.Json(new { Profiles = results, Errors = errors });
        }

        return errors.Count == 0
            ? Task.FromResult(ExitCode.Done)
            : json ? Task.FromResult(ExitCode.BadInput) : throw new Bench.Model.Configuration.ConfigurationException(errors);
    }
}

using System.CommandLine;

namespace Bench.Cli.Verbs;

/// <summary><c>bench sign</c>: a person signs a run off, with all that was said of it until then.</summary>
internal static class SignVerb
{
    private static readonly Option<string> NameOption = new("--name") { Description = "Your name", HelpName = "NAME", Required = true };
    private static readonly Option<string> RoleOption = new("--role") { Description = "As what you sign, e.g. warranty analyst", HelpName = "ROLE", Required = true };
    private static readonly Option<string> StatementOption = new("--statement") { Description = "What you state", HelpName = "TEXT", Required = true };

    /// <summary>Gives the verb its options and action.</summary>
    public static void Fill(Command command)
    {
        command.Add(StoreAccess.RunArgument);
        command.Add(NameOption);
        command.Add(RoleOption);
        command.Add(StatementOption);
        command.SetGuardedAction(SignAsync);
    }

    private static Task<int> SignAsync(ParseResult options)
    {
        string name = SpokenText.Read(options, NameOption);
        string role = SpokenText.Read(options, RoleOption);
        string statement = SpokenText.Read(options, StatementOption);
        return EntryMaking.RunAsync(options, (store, run) => store.SignOff(run.Record.Start.Id, name, role, statement));
    }
}

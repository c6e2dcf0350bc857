using System.CommandLine;

namespace Bench.Cli.Verbs;

/// <summary><c>bench note</c>: adds a person's remark to a run, as an entry beside the sealed record.</summary>
internal static class NoteVerb
{
    private static readonly Option<string> TextOption = new("--text") { Description = "The remark", HelpName = "TEXT", Required = true };
    private static readonly Option<string> ByOption = new("--by") { Description = "Your name", HelpName = "NAME", Required = true };

    /// <summary>Gives the verb its options and action.</summary>
    public static void Fill(Command command)
    {
        command.Add(StoreAccess.RunArgument);
        command.Add(TextOption);
        command.Add(ByOption);
        command.SetGuardedAction(NoteAsync);
    }

    private static Task<int> NoteAsync(ParseResult options)
    {
        string text = SpokenText.Read(options, TextOption);
        string by = SpokenText.Read(options, ByOption);
        return EntryMaking.RunAsync(options, (store, run) => store.AddNote(run.Record.Start.Id, text, by));
    }
}

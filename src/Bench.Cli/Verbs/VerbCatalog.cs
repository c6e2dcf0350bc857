using System.CommandLine;

namespace Bench.Cli.Verbs;

/// <summary>All verbs. Only those a command line names are filled with options and actions: start-up time counts.</summary>
internal static class VerbCatalog
{
    private static readonly (string Name, string Description, Action<Command> Fill)[] All =
    [
        ("demo", "Test made-up returned units of every condition in virtual time and write their evidence packets", DemoVerb.Fill),
        ("intake", "Take a return in: label, claim, arrival inspection, photos; says where the unit was before", IntakeVerb.Fill),
        ("run", "Test one unit, or several at once: supply, homing, port moves, endurance; then judge it and write the evidence packet", RunVerb.Fill),
        ("check", "Find, time and grade every device of a bench, and say what to mend; list ports, walk a link; energises only with --exercise", CheckVerb.Fill),
        ("safe", "Switch every output of a bench off and read it back; works alone", SafeVerb.Fill),
        ("runs", "List runs, newest first", RunsVerb.Fill),
        ("show", "Show one run: verdict, reasons, findings, causes, what to do next", ShowVerb.Fill),
        ("report", "Write the evidence packet of a run as a page or PDF, its traveller or its label", ReportVerb.Fill),
        ("export", "Write tables of runs, findings, features, moves or a trace, or one run whole, for other programs", ExportVerb.Fill),
        ("compare", "Hold two runs of a unit against each other: what changed, and whether that is more than chance", CompareVerb.Fill),
        ("judge", "Judge a stored run again under a profile; the run's own verdict stays, the new one is added", JudgeVerb.Fill),
        ("correct", "Set a fact of a run's return right, as an entry beside the sealed record", CorrectVerb.Fill),
        ("note", "Add a remark to a run, as an entry beside the sealed record", NoteVerb.Fill),
        ("sign", "Sign a run off, with all that was said of it until now", SignVerb.Fill),
        ("verify", "Check every stored record, entry, signature and file, and their order", VerifyVerb.Fill),
        ("key", "Make or show the key that this bench signs records with", KeyVerb.Fill),
        ("backup", "Copy the store into one file, while runs may be written", BackupVerb.Fill),
        ("restore", "Make a data folder of a backup", RestoreVerb.Fill),
        ("retain", "List or drop the traces of old runs by policy; records and hashes stay", RetainVerb.Fill),
        ("profile", "Work on profiles", ProfileVerb.Fill),
        ("sim", "Serve a simulated bench on a pty or a TCP port, in real time, until stopped", SimVerb.Fill),
    ];

    /// <summary>The verbs for a command line.</summary>
    public static IEnumerable<Command> For(string[] args)
    {
        foreach ((string name, string description, Action<Command> fill) in All)
        {
            Command verb = new(name, description);
            if (args.Contains(name))
            {
                fill(verb);
            }

            yield return verb;
        }
    }
}

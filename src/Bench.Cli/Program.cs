using System.CommandLine;
using Bench.Cli;
using Bench.Cli.Output;
using Bench.Cli.Verbs;

RootCommand root = new("Tests returned rotary valve actuators and says reusable, repairable or scrap, with evidence.");
root.Options.Add(CommonOptions.Data);
root.Options.Add(CommonOptions.Json);
foreach (Command verb in VerbCatalog.For(args))
{
    root.Subcommands.Add(verb);
}

ParseResult parsed = root.Parse(args);
if (parsed.Errors.Count > 0)
{
    foreach (string message in ParseMessages.Of(parsed))
    {
        Terminal.Say(message);
    }

    Terminal.Say("'bench --help' lists the verbs, 'bench VERB --help' their options.");
    return ExitCode.BadInput;
}

// Signals are the verbs' own: a run switches its outputs off before it ends.
return await parsed.InvokeAsync(new InvocationConfiguration { EnableDefaultExceptionHandler = false, ProcessTerminationTimeout = null });

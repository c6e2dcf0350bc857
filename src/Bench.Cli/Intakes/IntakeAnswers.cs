using System.Runtime.InteropServices;
using Bench.Cli.Output;
using Bench.Model.Returns;

namespace Bench.Cli.Intakes;

/// <summary>Asks the person at this terminal for what the form still misses, one question after the other.</summary>
internal static class IntakeAnswers
{
    /// <summary>Asks every field that has no answer yet. An answer that can't be used is asked for again; Ctrl-C ends the program, and nothing is kept.</summary>
    /// <exception cref="CliException">The questions ended before the answers were complete.</exception>
    public static void Ask(IntakeForm form, Dictionary<string, IReadOnlyList<string>> answers)
    {
        using PosixSignalRegistration interrupted = PosixSignalRegistration.Create(PosixSignal.SIGINT, _ =>
        {
            Terminal.Say("\nInterrupted. Nothing was taken in.");
            Environment.Exit(ExitCode.Interrupted);
        });
        foreach (IntakeField field in form.Fields.Where(f => !answers.ContainsKey(f.Key)))
        {
            List<string> given = [];
            while (true)
            {
                string answer = AskOne(field, given.Count > 0)
                    ?? throw new CliException(ExitCode.BadInput, $"\nThe answers ended at '{field.Label}'. Nothing was taken in.");
                if (answer.Length == 0)
                {
                    if (given.Count > 0 || !field.Required)
                    {
                        break;
                    }
                }

                IntakeError? wrong = IntakeForm.Check(field, answer.Length == 0 ? [] : [answer]).FirstOrDefault();
                if (wrong is not null)
                {
                    Terminal.Say($"  {wrong.Found}: {wrong.Allowed}");
                    continue;
                }

                given.Add(answer);
                if (!field.Repeats)
                {
                    break;
                }
            }

            answers[field.Key] = given;
        }
    }

    private static string? AskOne(IntakeField field, bool again)
    {
        string choice = field.Allowed.Count > 0 ? $" [{string.Join(", ", field.Allowed)}]" : field.Help is { } help ? $" ({help})" : "";
        string empty = again ? "; Enter when that was all" : field.Required ? "; required" : "; Enter for none";
        Console.Error.Write($"{field.Label}{choice}{empty}: ");
        return Console.In.ReadLine()?.Trim();
    }
}

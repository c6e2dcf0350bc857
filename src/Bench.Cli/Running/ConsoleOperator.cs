using Bench.Cli.Output;
using Bench.Running;

namespace Bench.Cli.Running;

/// <summary>Asks the person at this terminal.</summary>
internal sealed class ConsoleOperator(bool yes) : IOperator
{
    /// <inheritdoc/>
    public async ValueTask<bool> ConfirmAsync(
        string serial, IReadOnlyList<string> cautions, IReadOnlyList<string> wiring, CancellationToken cancel)
    {
        Terminal.Say("Before anything is energised");
        foreach (string caution in cautions)
        {
            Terminal.Say($"  ! {caution}");
        }

        Terminal.Say("Wiring");
        foreach (string line in wiring)
        {
            Terminal.Say($"  - {line}");
        }

        if (yes)
        {
            Terminal.Say("Confirmed by --yes.");
            return true;
        }

        return await AskAsync($"Is all of this so for unit {serial}? Type yes: ", "Not confirmed: there is nobody to ask. Whoever has checked every line may give --yes.", cancel);
    }

    /// <inheritdoc/>
    public async ValueTask<bool> HasDoneAsync(string serial, string why, IReadOnlyList<string> steps, CancellationToken cancel)
    {
        Terminal.Say($"Unit {serial}: {why}");
        foreach (string step in steps)
        {
            Terminal.Say($"  - {step}");
        }

        return await AskAsync("Done? Type yes: ", "Not done: there is nobody to ask.", cancel);
    }

    private static async ValueTask<bool> AskAsync(string question, string nobody, CancellationToken cancel)
    {
        if (Console.IsInputRedirected)
        {
            Terminal.Say(nobody);
            return false;
        }

        Console.Error.Write(question);

        // Whatever it is called, the console's reader blocks and heeds no token: waited for on a thread that ends with
        // the process, so that Ctrl-C here needs no Enter after it.
        string? answer = await Task.Run(Console.In.ReadLine, CancellationToken.None).WaitAsync(cancel);
        return answer is not null && answer.Trim().Equals("yes", StringComparison.OrdinalIgnoreCase);
    }
}

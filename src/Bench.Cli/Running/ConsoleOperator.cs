using Bench.Cli.Output;
using Bench.Running;

namespace Bench.Cli.Running;

/// <summary>Asks the person at this terminal.</summary>
/// <param name="yes">Whether whoever started the program has confirmed already.</param>
/// <param name="places">Positions by serial number, where several units are asked for; the question names them.</param>
internal sealed class ConsoleOperator(bool yes, IReadOnlyDictionary<string, string>? places = null) : IOperator, IDisposable
{
    // Several runs may ask at once; one person answers.
    private readonly SemaphoreSlim _asking = new(1, 1);
    private readonly PendingLine _line = new(Console.In.ReadLine);
    private IReadOnlyList<string> _shown = [];

    /// <inheritdoc/>
    public bool CanAsk(HandWork work) => !Console.IsInputRedirected;

    /// <inheritdoc/>
    public async ValueTask<bool> ConfirmAsync(
        string serial, IReadOnlyList<string> cautions, IReadOnlyList<string> wiring, CancellationToken cancel)
    {
        string unit = Unit(serial);
        Show(unit, cautions, wiring);
        if (yes)
        {
            Terminal.Say("Confirmed by --yes.");
            return true;
        }

        return await AskAsync($"Is all of this so for {unit}? Type yes: ", "Not confirmed: there is nobody to ask. Whoever has checked every line may give --yes.", cancel);
    }

    /// <inheritdoc/>
    public async ValueTask<bool> HasDoneAsync(HandWork work, string serial, string why, IReadOnlyList<string> steps, CancellationToken cancel)
    {
        await _asking.WaitAsync(cancel);
        try
        {
            Terminal.Say($"{Unit(serial)}: {why}");
            Terminal.Say("  - ", steps);
            return await AskAsync(Question(work, Unit(serial)), "Not done: there is nobody to ask.", cancel, anyAnswer: work == HandWork.DisturbConnector);
        }
        catch (OperationCanceledException)
        {
            // Hands may be there; what ended it is told when everything is off, which is later.
            Terminal.Say(work == HandWork.DisturbConnector ? "Stop: hands off." : $"The bench ends the run: hands off {Unit(serial)}, and step back.");
            throw;
        }
        finally
        {
            _asking.Release();
        }
    }

    /// <inheritdoc/>
    public void Dispose() => _asking.Dispose();

    private static string Question(HandWork work, string unit) => work switch
    {
        HandWork.ApproachConnector => $"Read, and ready at {unit}? Type yes: ",
        HandWork.DisturbConnector => "Moving it now; press Enter to stop early: ",
        HandWork.LeaveConnector => $"Hands off {unit}, connectors home? Type yes: ",
        _ => $"Done at {unit}? Type yes: ",
    };

    private string Unit(string serial) => places is null ? $"unit {serial}" : $"unit {serial} at {places[serial]}";

    private async ValueTask<bool> AskAsync(string question, string nobody, CancellationToken cancel, bool anyAnswer = false)
    {
        if (Console.IsInputRedirected)
        {
            Terminal.Say(nobody);
            return false;
        }

        Console.Error.Write(question);
        string? answer;
        try
        {
            answer = await _line.ReadAsync(cancel);
        }
        catch (OperationCanceledException)
        {
            // Withdrawn: nobody typed the end of its line.
            Console.Error.WriteLine();
            throw;
        }

        if (answer is { Length: 0 } && _line.WasAskedBefore)
        {
            // An Enter meant for the question before, which was withdrawn.
            Console.Error.Write(question);
            answer = await _line.ReadAsync(cancel);
        }

        return anyAnswer || answer?.Trim().Equals("yes", StringComparison.OrdinalIgnoreCase) == true;
    }

    // The same cautions again for the next unit would only be skipped; its wiring is its own.
    private void Show(string unit, IReadOnlyList<string> cautions, IReadOnlyList<string> wiring)
    {
        Terminal.Say(places is null ? "Before anything is energised" : $"Before anything is energised: {unit}");
        if (cautions.SequenceEqual(_shown))
        {
            Terminal.Say("  ! Every caution above, for this unit too.");
        }
        else
        {
            Terminal.Say("  ! ", cautions);
            _shown = cautions;
        }

        Terminal.Say("Wiring");
        Terminal.Say("  - ", wiring);
    }
}

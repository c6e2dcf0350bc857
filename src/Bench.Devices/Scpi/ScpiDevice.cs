using Bench.Devices.Buses;
using Bench.Devices.Lines;
using Bench.Model.Instruments;

namespace Bench.Devices.Scpi;

/// <summary>An instrument that speaks SCPI: one program message a line, one answer a line.</summary>
public sealed class ScpiDevice(LineDevice line)
{
    /// <summary>What ends a message (IEEE 488.2, 7.5: a newline); answers may end in carriage return and newline.</summary>
    public const string Terminator = "\n";

    // The queue holds at least two (SCPI-1999 volume 1, 4.1.4.2; from memory); one that never empties is a fault of its own.
    private const int MostErrorsRead = 20;

    private const string NextError = "SYST:ERR?";

    /// <summary>The device below, for its name and counts.</summary>
    public LineDevice Line => line;

    /// <summary>Sends a command once, then reads what the instrument has to say of it, in one turn.</summary>
    /// <param name="turnClass">Who goes first.</param>
    /// <param name="command">A program message without answer.</param>
    /// <param name="cancel">Leaves the line; what is on the wire is waited for.</param>
    /// <param name="before">Called when it has its turn, right before it sends; what it throws keeps it from sending.</param>
    /// <exception cref="DeviceFaultException">It refused, with its own first error; or it does not answer.</exception>
    public async ValueTask CommandAsync(BusClass turnClass, string command, CancellationToken cancel, Action? before = null)
    {
        using LinkTurn<LineClient> turn = await line.TakeTurnAsync(turnClass, cancel);
        before?.Invoke();
        LineResult sent = await line.SendAsync(turn, command, judge: null);
        if (!sent.Ok)
        {
            throw new DeviceFaultException(line.Fault(sent, command));
        }

        LineResult first = await ReadErrorsAsync(turn);
        if (!first.Ok)
        {
            throw new DeviceFaultException(line.Fault(first, command));
        }
    }

    /// <summary>Asks for a number. A failed query empties the error queue, so that the next command is not blamed for it.</summary>
    /// <returns>The exchange, not Ok when there is no number, and the number.</returns>
    public async ValueTask<(LineResult Result, double Value)> QueryNumberAsync(BusClass turnClass, string query, CancellationToken cancel)
    {
        ScpiNumber number = default;
        using LinkTurn<LineClient> turn = await line.TakeTurnAsync(turnClass, cancel);
        LineResult result = await line.SendAsync(
            turn,
            query,
            text => !ScpiNumber.TryParse(text, out number) ? DeviceFaultKind.Garbled : number.Ok ? null : DeviceFaultKind.Refused);
        if (result.Fault == DeviceFaultKind.Refused)
        {
            result = result with { Text = number.Instead ?? result.Text };
        }
        else if (result.Fault == DeviceFaultKind.Silent)
        {
            // Nothing is answered to a query that the instrument does not know; its queue says so.
            LineResult why = await ReadErrorsAsync(turn);
            result = why.Fault == DeviceFaultKind.Refused ? why : result;
        }

        return (result, result.Ok ? number.Value : 0);
    }

    /// <summary>Asks for a number.</summary>
    /// <exception cref="DeviceFaultException">There is none.</exception>
    public async ValueTask<double> ReadNumberAsync(BusClass turnClass, string query, CancellationToken cancel)
    {
        (LineResult result, double value) = await QueryNumberAsync(turnClass, query, cancel);
        return result.Ok ? value : throw new DeviceFaultException(line.Fault(result, query));
    }

    /// <summary>Asks who it is; answered with four fields: maker, model, serial number, firmware (IEEE 488.2, 10.14).</summary>
    public ValueTask<LineResult> IdentifyAsync(CancellationToken cancel) =>
        line.AskAsync(BusClass.Rest, "*IDN?", text => text.Length > 0 ? null : DeviceFaultKind.Garbled, retry: false, cancel);

    // Reads until the queue is empty; the first error is the one that counts.
    private async ValueTask<LineResult> ReadErrorsAsync(LinkTurn<LineClient> turn)
    {
        LineResult? first = null;
        for (int i = 0; i < MostErrorsRead; i++)
        {
            ScpiError error = default;
            LineResult result = await line.SendAsync(
                turn,
                NextError,
                text => !ScpiError.TryParse(text, out error) ? DeviceFaultKind.Garbled : error.IsError ? DeviceFaultKind.Refused : null);
            if (result.Fault != DeviceFaultKind.Refused)
            {
                return first ?? result;
            }

            first ??= result with { Text = $"{error.Message} ({error.Number})" };
        }

        return first!.Value;
    }
}

using System.Globalization;
using Bench.Devices.Buses;
using Bench.Devices.Lines;
using Bench.Model.BenchFiles;
using Bench.Model.Instruments;

namespace Bench.Devices.Boards;

/// <summary>The watchdog of a board that talks lines, armed and asked as its templates say.</summary>
internal sealed class LineWatchdog(LineDevice board, WatchdogDescription description, WatchdogLines lines) : IWatchdog
{
    private readonly string _value = description.Value.ToString(CultureInfo.InvariantCulture);

    /// <inheritdoc/>
    public string Device => board.Name;

    /// <inheritdoc/>
    public TimeSpan Time => TimeSpan.FromMilliseconds(description.TimeoutMs);

    /// <inheritdoc/>
    public async ValueTask ArmAsync(CancellationToken cancel)
    {
        using LinkTurn<LineClient> turn = await board.TakeTurnAsync(BusClass.Safety, cancel);
        LineResult result = await board.SendAsync(
            turn, lines.Arm.Fill(_ => _value), lines.Armed is null ? null : text => ValueIn(lines.Armed, text, description.Value) == description.Value ? null : DeviceFaultKind.Garbled);
        if (!result.Ok)
        {
            throw new DeviceFaultException(board.Fault(result, "to arm its watchdog"));
        }
    }

    /// <inheritdoc/>
    public async ValueTask<bool> ReadArmedAsync(CancellationToken cancel)
    {
        int? held = null;
        LineResult result = await board.AskAsync(
            BusClass.Safety,
            lines.Ask.Fill(_ => ""),
            text => (held = ValueIn(lines.Answer, text, null)) is null ? DeviceFaultKind.Garbled : null,
            retry: true,
            cancel);
        return result.Ok ? held == description.Value : throw new DeviceFaultException(board.Fault(result, "for its watchdog's time"));
    }

    // A template without {value} says only that it was heard.
    private static int? ValueIn(LineTemplate template, string text, int? otherwise) =>
        template.Match(text) is not { } fields ? null
        : !fields.TryGetValue(LineTemplate.Value, out string? value) ? otherwise
        : int.TryParse(value, NumberStyles.None, CultureInfo.InvariantCulture, out int counts) ? counts : null;
}

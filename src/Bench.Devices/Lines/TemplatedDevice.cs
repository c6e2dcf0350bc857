using System.Globalization;
using Bench.Devices.Buses;
using Bench.Model.BenchFiles;
using Bench.Model.Instruments;

namespace Bench.Devices.Lines;

/// <summary>A device that is switched and asked as the templates of the bench file say.</summary>
public sealed class TemplatedDevice(LineDevice line, LineSyntax syntax)
{
    /// <summary>The device below, for its name and counts.</summary>
    public LineDevice Line => line;

    /// <summary>Whether switching is answered; if not, only reading back confirms it.</summary>
    public bool AnswersSwitching => syntax.Switched is not null;

    /// <summary>Switches an output, once, in a turn already taken.</summary>
    public ValueTask<LineResult> SwitchAsync(LinkTurn<LineClient> turn, string channel, bool on)
    {
        string word = Word(on);
        string message = syntax.Switch!.Fill(field => field == LineTemplate.Channel ? channel : word);
        return line.SendAsync(turn, message, syntax.Switched is null ? null : text => Fits(syntax.Switched, text, channel, word));
    }

    /// <summary>Asks whether an output or input is on.</summary>
    public async ValueTask<(LineResult Result, bool On)> AskStateAsync(BusClass turnClass, string channel, bool retry, CancellationToken cancel)
    {
        bool on = false;
        LineResult result = await line.AskAsync(
            turnClass,
            Ask(syntax.AskState!, channel),
            text =>
            {
                on = Fits(syntax.State!, text, channel, syntax.On) is null;
                return on ? null : Fits(syntax.State!, text, channel, syntax.Off);
            },
            retry,
            cancel);
        return (result, result.Ok && on);
    }

    /// <summary>Asks for a number.</summary>
    public async ValueTask<(LineResult Result, double Value)> AskValueAsync(BusClass turnClass, string channel, CancellationToken cancel)
    {
        double value = 0;
        LineResult result = await line.AskAsync(
            turnClass,
            Ask(syntax.AskValue!, channel),
            text => Fields(syntax.Value!, text, channel) is { } fields
                && double.TryParse(fields[LineTemplate.Value], NumberStyles.Float, CultureInfo.InvariantCulture, out value)
                && double.IsFinite(value)
                    ? null
                    : DeviceFaultKind.Garbled,
            retry: false,
            cancel);
        return (result, result.Ok ? value : 0);
    }

    private static string Ask(LineTemplate template, string channel) => template.Fill(_ => channel);

    // An answer for another channel is no answer to this question.
    private static IReadOnlyDictionary<string, string>? Fields(LineTemplate template, string text, string channel) =>
        template.Match(text) is { } fields && fields.GetValueOrDefault(LineTemplate.Channel, channel) == channel ? fields : null;

    private static DeviceFaultKind? Fits(LineTemplate template, string text, string channel, string word) =>
        Fields(template, text, channel) is { } fields && fields.GetValueOrDefault(LineTemplate.State, word) == word
            ? null
            : DeviceFaultKind.Garbled;

    private string Word(bool on) => on ? syntax.On : syntax.Off;
}

using System.Globalization;
using Bench.Model.BenchFiles;

namespace Bench.Simulation.Benches;

/// <summary>A device that answers lines as its templates in the bench file say; silent to any other line and any other channel.</summary>
internal sealed class SimulatedLineDevice(LineSyntax syntax, WatchdogLines? watchdog)
{
    private readonly Dictionary<string, Func<bool>> _states = [];
    private readonly Dictionary<string, Func<double>> _values = [];
    private readonly Dictionary<string, Action<bool>> _switches = [];

    internal void Reads(string channel, Func<double> value) => _values[channel] = value;

    internal void ReadsInput(string channel, Func<bool> on) => _states[channel] = on;

    internal void Switches(string channel, Action<bool> command, Func<bool> coil)
    {
        _switches[channel] = command;
        _states[channel] = coil;
    }

    private SimulatedBoard? _board;
    private Action _heard = () => { };

    /// <summary>Gives it the board that it is, for its watchdog.</summary>
    /// <param name="board">The board.</param>
    /// <param name="heard">Called for each line that is meant for it, answered or not.</param>
    internal void Over(SimulatedBoard board, Action heard) => (_board, _heard) = (board, heard);

    internal string? Answer(string line)
    {
        if (IsMine(line))
        {
            _heard();
        }

        return Switch(line) ?? State(line) ?? Value(line) ?? Watchdog(line);
    }

    private bool IsMine(string line) =>
        (Channel(syntax.Switch, line) is string output && _switches.ContainsKey(output))
        || (Channel(syntax.AskState, line) is string input && _states.ContainsKey(input))
        || (Channel(syntax.AskValue, line) is string meter && _values.ContainsKey(meter))
        || watchdog?.Arm.Match(line) is not null || watchdog?.Ask.Match(line) is not null;

    private string? Watchdog(string line)
    {
        if (watchdog is null || _board is null)
        {
            return null;
        }

        if (watchdog.Arm.Match(line) is { } fields && int.TryParse(fields[LineTemplate.Value], NumberStyles.None, CultureInfo.InvariantCulture, out int counts))
        {
            _board.WatchdogValue = counts;
            return watchdog.Armed is null ? null : Fill(watchdog.Armed, "", fields[LineTemplate.Value]);
        }

        return watchdog.Ask.Match(line) is null ? null : Fill(watchdog.Answer, "", _board.WatchdogValue.ToString(CultureInfo.InvariantCulture));
    }

    private static string? Channel(LineTemplate? template, string line) =>
        template?.Match(line) is { } fields ? fields[LineTemplate.Channel] : null;

    private static string Fill(LineTemplate template, string channel, string word) => template.Fill(field => field switch
    {
        LineTemplate.Channel => channel,
        LineTemplate.Any => "x",
        _ => word,
    });

    private string? Switch(string line)
    {
        if (syntax.Switch?.Match(line) is not { } fields
            || !_switches.TryGetValue(fields[LineTemplate.Channel], out Action<bool>? command)
            || (fields[LineTemplate.State] != syntax.On && fields[LineTemplate.State] != syntax.Off))
        {
            return null;
        }

        command(fields[LineTemplate.State] == syntax.On);
        return syntax.Switched is null ? null : Fill(syntax.Switched, fields[LineTemplate.Channel], fields[LineTemplate.State]);
    }

    private string? State(string line) =>
        Channel(syntax.AskState, line) is string channel && _states.TryGetValue(channel, out Func<bool>? on)
            ? Fill(syntax.State!, channel, on() ? syntax.On : syntax.Off)
            : null;

    private string? Value(string line) =>
        Channel(syntax.AskValue, line) is string channel && _values.TryGetValue(channel, out Func<double>? value)
            ? Fill(syntax.Value!, channel, value().ToString("0.######", CultureInfo.InvariantCulture))
            : null;
}

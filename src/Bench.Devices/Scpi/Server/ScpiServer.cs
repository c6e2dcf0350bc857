namespace Bench.Devices.Scpi.Server;

/// <summary>An instrument's side of SCPI: headers with handlers, and the error queue. Pure: a message in, an answer or silence out.</summary>
/// <remarks>
/// Serves the common commands *IDN?, *RST, *CLS, *OPC? and SYSTem:ERRor[:NEXT]?, SYSTem:VERSion? of itself. Units of a message are
/// joined by semicolons; a header without a leading colon goes on from the path of the one before (IEEE 488.2, appendix A;
/// SCPI-1999 volume 1, 6.2.4).
/// </remarks>
public sealed class ScpiServer
{
    /// <summary>Errors kept; the last is replaced by -350 when one more comes.</summary>
    public const int MostErrors = 16;

    private readonly List<(ScpiPattern Pattern, int Parameters, Func<string[], string?> Handler)> _commands = [];
    private readonly Queue<ScpiError> _errors = new();
    private readonly Action _reset;

    /// <summary>Makes an instrument.</summary>
    /// <param name="identity">Maker, model, serial number and firmware; "0" for one it does not have.</param>
    /// <param name="reset">What *RST does.</param>
    public ScpiServer(string identity, Action reset)
    {
        _reset = reset;
        On("*IDN?", 0, _ => identity);
        On("*RST", 0, _ => Do(_reset));
        On("*CLS", 0, _ => Do(_errors.Clear));
        On("*OPC?", 0, _ => "1");
        On("SYSTem:ERRor[:NEXT]?", 0, _ => (_errors.TryDequeue(out ScpiError error) ? error : ScpiError.None).ToString());
        On("SYSTem:VERSion?", 0, _ => "1999.0");
    }

    /// <summary>Adds a command.</summary>
    /// <param name="pattern">Its header, <see cref="ScpiPattern"/>.</param>
    /// <param name="parameters">How many parameters it takes.</param>
    /// <param name="handler">Carries it out; gives the answer of a query. May call <see cref="Refuse"/>.</param>
    public void On(string pattern, int parameters, Func<string[], string?> handler) =>
        _commands.Add((new ScpiPattern(pattern), parameters, handler));

    /// <summary>Puts an error into the queue.</summary>
    /// <returns>Null, so that a handler can end with it.</returns>
    public string? Refuse(ScpiError error)
    {
        if (_errors.Count == MostErrors)
        {
            ScpiError[] kept = [.. _errors.Take(MostErrors - 1), ScpiError.QueueOverflow];
            _errors.Clear();
            Array.ForEach(kept, _errors.Enqueue);
            return null;
        }

        _errors.Enqueue(error);
        return null;
    }

    /// <summary>Carries out one program message.</summary>
    /// <returns>The answers of its queries joined by semicolons; null when there are none.</returns>
    public string? Answer(string message)
    {
        ArgumentNullException.ThrowIfNull(message);
        List<string> answers = [];
        string path = "";
        foreach (string unit in message.Split(';', StringSplitOptions.TrimEntries))
        {
            string header = unit.Split(' ', 2)[0];
            string[] parameters = unit.Length == header.Length ? [] : unit[header.Length..].Split(',', StringSplitOptions.TrimEntries);
            string full = header.StartsWith('*') || header.StartsWith(':') ? header : path + header;
            if (Carry(full, parameters) is string answer)
            {
                answers.Add(answer);
            }

            path = header.StartsWith('*') ? path : full[..(full.LastIndexOf(':') + 1)];
        }

        return answers.Count == 0 ? null : string.Join(';', answers);
    }

    private static string? Do(Action action)
    {
        action();
        return null;
    }

    private string? Carry(string header, string[] parameters)
    {
        if (header.Length == 0)
        {
            return Refuse(ScpiError.Syntax);
        }

        foreach ((ScpiPattern pattern, int count, Func<string[], string?> handler) in _commands)
        {
            if (pattern.Matches(header))
            {
                return parameters.Length > count ? Refuse(ScpiError.ParameterNotAllowed)
                    : parameters.Length < count ? Refuse(ScpiError.MissingParameter)
                    : handler(parameters);
            }
        }

        return Refuse(ScpiError.UndefinedHeader);
    }
}

using System.Globalization;

namespace Bench.Devices.Scpi;

/// <summary>One entry of an instrument's error queue: <c>-113,"Undefined header"</c>.</summary>
/// <param name="Number">Its number; 0 means that the queue is empty. Numbers below 0 are the standard's (SCPI-1999 volume 2, 21.8), above 0 the device's own.</param>
/// <param name="Message">What the instrument says of it.</param>
public readonly record struct ScpiError(int Number, string Message)
{
    /// <summary>No error.</summary>
    public static ScpiError None => new(0, "No error");

    /// <summary>A character, keyword or blank is where none is allowed.</summary>
    public static ScpiError Syntax => new(-102, "Syntax error");

    /// <summary>A parameter is of another kind.</summary>
    public static ScpiError DataType => new(-104, "Data type error");

    /// <summary>There are more parameters than the command takes.</summary>
    public static ScpiError ParameterNotAllowed => new(-108, "Parameter not allowed");

    /// <summary>There are fewer.</summary>
    public static ScpiError MissingParameter => new(-109, "Missing parameter");

    /// <summary>There is no such command.</summary>
    public static ScpiError UndefinedHeader => new(-113, "Undefined header");

    /// <summary>It is understood, and the instrument's state does not allow it.</summary>
    public static ScpiError SettingsConflict => new(-221, "Settings conflict");

    /// <summary>The value is not one that the instrument can take.</summary>
    public static ScpiError OutOfRange => new(-222, "Data out of range");

    /// <summary>The queue was full; later errors are lost.</summary>
    public static ScpiError QueueOverflow => new(-350, "Queue overflow");

    /// <summary>Whether it is one.</summary>
    public bool IsError => Number != 0;

    /// <summary>Reads the answer to SYST:ERR?. The number decides, not the text: "+0" and other words than "No error" occur.</summary>
    public static bool TryParse(string text, out ScpiError error)
    {
        ArgumentNullException.ThrowIfNull(text);
        int comma = text.IndexOf(',', StringComparison.Ordinal);
        bool read = int.TryParse(
            comma < 0 ? text : text[..comma], NumberStyles.AllowLeadingSign | NumberStyles.AllowLeadingWhite | NumberStyles.AllowTrailingWhite, CultureInfo.InvariantCulture, out int number);
        string words = comma < 0 ? "" : text[(comma + 1)..].Trim();
        if (words is ['"', .., '"'] && words.Length > 1)
        {
            words = words[1..^1].Replace("\"\"", "\"", StringComparison.Ordinal);
        }

        error = new ScpiError(number, words);
        return read;
    }

    /// <summary>As an instrument answers it.</summary>
    public override string ToString() =>
        string.Create(CultureInfo.InvariantCulture, $"{Number},\"{Message.Replace("\"", "\"\"", StringComparison.Ordinal)}\"");
}

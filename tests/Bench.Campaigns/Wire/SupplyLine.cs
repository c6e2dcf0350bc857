using System.Globalization;

namespace Bench.Campaigns.Wire;

/// <summary>A line that the program handed to the supply's link, read by what SCPI says of it and nothing of the program's.</summary>
/// <param name="TimeS">When, seconds on the bench's clock.</param>
/// <param name="Text">The line without its end.</param>
public sealed record SupplyLine(double TimeS, string Text)
{
    /// <summary>Voltage it sets, volts; null when it sets none.</summary>
    public double? SetsV { get; } = Number(Text, "VOLT ");

    /// <summary>Whether it switches the output; null when it does not.</summary>
    public bool? Switches { get; } = Ends(Text, "ON", "1") ? true : Ends(Text, "OFF", "0") ? false : null;

    /// <summary>Whether it asks what voltage is set.</summary>
    public bool AsksSetting => IsHeader(Text, "VOLT?") && !AsksMeasured;

    /// <summary>Whether it asks what voltage is measured.</summary>
    public bool AsksMeasured => Text.StartsWith("MEAS", StringComparison.Ordinal) && Text.Contains("VOLT", StringComparison.Ordinal);

    /// <summary>Whether it asks anything.</summary>
    public bool Asks => Text.EndsWith('?');

    /// <summary>Whether it resets the supply, its output off.</summary>
    public bool Resets => Text == "*RST";

    // The keyword at the start or behind a colon; a number may follow the one before it.
    private static bool IsHeader(string text, string keyword) =>
        text.StartsWith(keyword, StringComparison.Ordinal) || text.Contains(":" + keyword, StringComparison.Ordinal);

    private static double? Number(string text, string keyword) =>
        IsHeader(text, keyword) && double.TryParse(text[(text.IndexOf(' ', StringComparison.Ordinal) + 1)..], NumberStyles.Float, CultureInfo.InvariantCulture, out double value) ? value : null;

    private static bool Ends(string text, string word, string number) =>
        text.StartsWith("OUTP", StringComparison.Ordinal)
        && (text.EndsWith(" " + word, StringComparison.Ordinal) || text.EndsWith(" " + number, StringComparison.Ordinal));
}

using System.Globalization;
using Bench.Model.Configuration;

namespace Bench.Model.BenchFiles;

/// <summary>Reads a board's watchdog: <c>[device.watchdog]</c>.</summary>
internal static class WatchdogReader
{
    /// <summary>
    /// Least time: a board is asked every third slot, about every 22 ms on a serial bus, and a computer that is busy may
    /// be some tens of milliseconds late.
    /// </summary>
    public const double LeastMs = 200;

    /// <summary>
    /// Three positions are read between two readings of the board; when all of them, and one of the board's own, stay
    /// without an answer, four time-outs pass until it is asked again.
    /// </summary>
    public const int LeastTimeouts = 5;

    private static readonly NumberRange Times = new(LeastMs, 60_000);

    /// <summary>Reads one; null when there is none, or it could not be read, which is noted then.</summary>
    /// <param name="section">Its table.</param>
    /// <param name="isLines">Whether the board talks lines.</param>
    public static WatchdogDescription? Read(Section? section, bool isLines)
    {
        if (section is null)
        {
            return null;
        }

        int? register = isLines ? null : section.Whole("holding_register", 0, 65535);
        WatchdogLines? lines = isLines ? ReadLines(section) : null;
        double? unit = section.Number("unit_ms", NumberRange.Positive(60_000));
        double? timeout = section.Number("timeout_ms", Times);
        double counts = Math.Round(timeout / unit ?? 1);
        if (counts is < 1 or > ushort.MaxValue || (unit is not null && Math.Abs((counts * unit.Value) - (timeout ?? 0)) > 1e-6))
        {
            section.Refuse("timeout_ms", null, Text($"1 to 65535 times unit_ms ({unit}) is allowed"));
        }

        section.Close();
        return (register is null && lines is null) || unit is null || timeout is null
            ? null
            : new WatchdogDescription { HoldingRegister = register ?? 0, Lines = lines, UnitMs = unit.Value, TimeoutMs = timeout.Value };
    }

    private static WatchdogLines? ReadLines(Section section)
    {
        LineTemplate? arm = LineSyntaxReader.Template(section, "arm", [LineTemplate.Value], [], needed: true);
        LineTemplate? armed = LineSyntaxReader.Template(section, "armed", [], [LineTemplate.Value, LineTemplate.Any]);
        LineTemplate? ask = LineSyntaxReader.Template(section, "ask", [], [], needed: true);
        LineTemplate? answer = LineSyntaxReader.Template(section, "answer", [LineTemplate.Value], [LineTemplate.Any], needed: true);
        return arm is null || ask is null || answer is null ? null : new WatchdogLines(arm, armed, ask, answer);
    }

    /// <summary>Holds every watchdog against the time-outs of the bench: a slow answer must not look like a dead host.</summary>
    public static void CheckTimeouts(IReadOnlyList<Section> sections, IReadOnlyList<DeviceDescription> devices)
    {
        double slowest = devices.Max(d => (double?)d.TimeoutMs) ?? 0;
        foreach ((Section section, DeviceDescription device) in sections.Zip(devices))
        {
            if (device.Watchdog?.TimeoutMs < LeastTimeouts * slowest)
            {
                section.Table("watchdog")?.Refuse(
                    "timeout_ms",
                    null,
                    Text($"at least {LeastTimeouts} times the longest device timeout_ms ({slowest}) is allowed, else devices that do not answer run it out while the program works; raise it, or lower that"));
            }
        }
    }

    private static string Text(FormattableString text) => text.ToString(CultureInfo.InvariantCulture);
}

using Bench.Model.BenchFiles;
using Bench.Model.Runs;

namespace Bench.Cli.Checking;

/// <summary>Whether a meter's calibration, or a gauge study, is still good.</summary>
/// <param name="Position">Name of the unit position.</param>
/// <param name="Meter">Which meter, or the study of which feature.</param>
/// <param name="Certificate">Number of the certificate or study.</param>
/// <param name="DueOn">Last day on which it is good.</param>
/// <param name="DaysLeft">Days until then; negative when overdue.</param>
internal sealed record CalibrationCheck(string Position, string Meter, string Certificate, DateOnly DueOn, int DaysLeft)
{
    /// <summary>Days ahead from which a due date is warned of: sending meters out and back takes weeks (common practice, no source).</summary>
    public const int WarnDays = 30;

    /// <summary>Whether the day has passed.</summary>
    public bool Overdue => DaysLeft < 0;

    /// <summary>Whether it is near.</summary>
    public bool DueSoon => DaysLeft is >= 0 and <= WarnDays;

    /// <summary>All meters and gauge studies of a bench, on a day.</summary>
    public static IReadOnlyList<CalibrationCheck> Of(BenchFile bench, DateOnly today) =>
    [
        .. bench.Positions.SelectMany(p => (CalibrationCheck[])
        [
            Of(p.Name, "current", p.Current.Certificate, p.Current.CalibrationDueOn, today),
            Of(p.Name, "voltage", p.Voltage.Certificate, p.Voltage.CalibrationDueOn, today),
            .. BenchSnapshot.Of(bench, p).Gauges.Select(g => Of(p.Name, $"gauge study of {g.Feature}", g.Study, g.DueOn, today)),
        ]),
    ];

    private static CalibrationCheck Of(string position, string meter, string certificate, DateOnly due, DateOnly today) =>
        new(position, meter, certificate, due, due.DayNumber - today.DayNumber);
}

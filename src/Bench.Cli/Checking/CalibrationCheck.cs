using Bench.Model.BenchFiles;

namespace Bench.Cli.Checking;

/// <summary>Whether a meter's calibration is still good.</summary>
internal sealed record CalibrationCheck(string Position, string Meter, string Certificate, DateOnly DueOn, bool Overdue)
{
    /// <summary>All meters of a bench, on a day.</summary>
    public static IReadOnlyList<CalibrationCheck> Of(BenchFile bench, DateOnly today) =>
    [
        .. bench.Positions.SelectMany(p => new[]
        {
            Of(p.Name, "current", p.Current, today),
            Of(p.Name, "voltage", p.Voltage, today),
        }),
    ];

    private static CalibrationCheck Of(string position, string meter, MeterDescription description, DateOnly today) =>
        new(position, meter, description.Certificate, description.CalibrationDueOn, description.CalibrationDueOn < today);
}

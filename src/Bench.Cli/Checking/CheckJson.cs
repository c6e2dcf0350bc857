using Bench.Model.BenchFiles;

namespace Bench.Cli.Checking;

/// <summary>A check as <c>--json</c> prints it (docs/cli.md).</summary>
internal static class CheckJson
{
    /// <summary>The document.</summary>
    public static object Of(BenchFile bench, BenchCondition found, IReadOnlyList<string> mend) => new
    {
        Bench = bench.Name,
        Ok = mend.Count == 0,
        found.CanRun,
        Devices = found.Devices.Select(d => new
        {
            d.Check.Device,
            d.Check.Link,
            d.Check.Address,
            d.OfUnit,
            d.Check.Answered,
            d.Graded.Grade,
            d.Graded.Reasons,
            d.Check.Reads,
            d.Check.Errors,
            ErrorShareLower95 = ErrorShare.Of(d.Check.Errors, d.Check.Reads).Lower,
            ErrorShareUpper95 = ErrorShare.Of(d.Check.Errors, d.Check.Reads).Upper,
            RoundTripP50Ms = d.Check.RoundTripP50?.TotalMilliseconds,
            RoundTripP99Ms = d.Check.RoundTripP99?.TotalMilliseconds,
            d.Check.TurnaroundMs,
            d.Check.Identity,
            d.Check.Stream,
            Fault = d.Check.Fault?.Detail,
        }),
        Positions = found.Positions.Select(p => new
        {
            p.Alone.Position,
            p.Graded?.Grade,
            Reasons = p.Graded?.Reasons ?? [],
            p.Alone.PositionRateHz,
            p.Alone.MeterRateHz,
            PositionRateTogetherHz = p.Together?.PositionRateHz,
            p.Alone.Times,
            Sightings = p.Plan,
        }),
        Outputs = found.Outputs.Select(s => new { s.Position, s.State, s.ConfirmedOff, Fault = s.Fault?.Detail }),
        Calibrations = found.Calibrations.Select(c => new { c.Position, c.Meter, c.Certificate, c.DueOn, c.DaysLeft, c.Overdue, c.DueSoon }),
        Mend = mend,
    };
}

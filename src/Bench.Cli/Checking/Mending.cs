using Bench.Devices.Positions;
using Bench.Model.Serialization;

namespace Bench.Cli.Checking;

/// <summary>What a bench's check asks a person to mend, in the order of work.</summary>
internal static class Mending
{
    /// <summary>The lines; none when all is well.</summary>
    public static IReadOnlyList<string> Of(
        IReadOnlyList<DeviceCheck> checks, IReadOnlyList<SafeStateResult> states, IReadOnlyList<CalibrationCheck> calibrations)
    {
        List<string> lines = [];
        foreach (SafeStateResult s in states.Where(s => s.State is not null && !s.ConfirmedOff))
        {
            lines.Add($"{s.Position}: an output reads back {BenchJson.Word(s.State!.Value)} although nothing was commanded: run 'bench safe', then check the relay");
        }

        foreach (IGrouping<string, DeviceCheck> link in checks.GroupBy(c => c.Link))
        {
            if (link.Count() > 1 && link.All(c => !c.Answered))
            {
                lines.Add($"link {link.Key}: no device answers: check port, speed and parity, the adapter's wiring (A and B exchanged?) and the devices' power");
                continue;
            }

            foreach (DeviceCheck c in link.Where(c => !c.Answered))
            {
                lines.Add($"{c.Device}: no answer at address {c.Address} while others on {c.Link} answer or it is alone: check its address switch, power and connector");
            }

            foreach (DeviceCheck c in link.Where(c => c.Answered && c.Errors > 0))
            {
                lines.Add($"{c.Device}: {c.Errors} of {c.Reads} reads failed ({c.Fault?.Detail}): check wiring, shield and termination");
            }
        }

        foreach (CalibrationCheck c in calibrations.Where(c => c.Overdue))
        {
            lines.Add(FormattableString.Invariant($"{c.Position} {c.Meter}: calibration was due {c.DueOn:yyyy-MM-dd}: units will be held until it is calibrated"));
        }

        return lines;
    }
}

using Bench.Devices.Modbus;
using Bench.Devices.Positions;
using Bench.Model.BenchFiles;
using Bench.Model.Instruments;

namespace Bench.Cli.Checking;

/// <summary>Grades how a device answered.</summary>
internal static class DeviceGrading
{
    /// <summary>Reads asked of a device: without an error the upper 95 % limit of the error share is then 0.92 %, just below <see cref="MostErrorShare"/>.</summary>
    public const int Reads = 400;

    /// <summary>A greater share of failed exchanges holds every unit (the default of bench.link_error_share). Common practice, no source: a wired link at rest fails less than once in a thousand.</summary>
    public const double MostErrorShare = 0.01;

    /// <summary>From here on a run is not worth beginning: at one in ten, two position readings in a row are lost more than once a second.</summary>
    public const double FailingErrorShare = 0.10;

    /// <summary>A device that takes more of its time-out once in a hundred will miss it on a busier day.</summary>
    public const double MostOfTimeout = 0.5;

    /// <summary>What an adapter adds to the wire's own time at most when it hands bytes on at once, milliseconds. Adapters that gather bytes wait 16 ms (common practice, no source).</summary>
    public const double MostHeldBackMs = 8;

    /// <summary>How far a stream's rate may be from the bench file's: quartz is a thousand times better, so more is another setting of the device.</summary>
    public const double MostRateError = 0.02;

    /// <summary>Characters of a short read and its answer: 8 out, 7 back (Modbus RTU, one register).</summary>
    private const int Characters = 15;

    /// <summary>The grade.</summary>
    /// <param name="check">How it answered.</param>
    /// <param name="device">Its description.</param>
    /// <param name="link">Its link's.</param>
    /// <param name="ofUnit">Whether it is a unit's own feedback, so that a missing unit explains its silence.</param>
    public static Graded Of(DeviceCheck check, DeviceDescription device, LinkDescription link, bool ofUnit) =>
        Graded.From(Remarks(check, device, link, ofUnit));

    private static IEnumerable<(Grade Grade, string Reason)> Remarks(
        DeviceCheck check, DeviceDescription device, LinkDescription link, bool ofUnit)
    {
        if (check.Stream is not null)
        {
            foreach ((Grade Grade, string Reason) remark in OfStream(check, check.Stream, device))
            {
                yield return remark;
            }

            yield break;
        }

        if (!check.Answered)
        {
            string where = FormattableString.Invariant($"at address {check.Address} on {check.Link}");
            yield return (Grade.Failing, check.Fault?.Kind == DeviceFaultKind.Garbled
                ? $"only damaged answers {where}: check speed and parity, shield and termination, and that no two devices share the address"
                : ofUnit
                ? $"no answer {where}: is a unit in place, powered and its feedback connected? If so, check its address switch and wiring"
                : $"no answer {where}: check its power, its address switch and its connector");
            yield break;
        }

        if (check.RoundTripP50 is not { } p50 || check.RoundTripP99 is not { } p99)
        {
            yield return (Grade.Failing, check.Fault?.Kind == DeviceFaultKind.Refused
                ? $"it answers but refuses: {check.Fault.Detail}"
                : $"no good answer: {check.Fault?.Detail}");
            yield break;
        }

        if (OfErrors(ErrorShare.Of(check.Errors, check.Reads)) is { } bad)
        {
            yield return bad;
        }

        double timeout = device.TimeoutMs;
        if (p99.TotalMilliseconds > MostOfTimeout * timeout)
        {
            yield return (Grade.Usable, FormattableString.Invariant(
                $"99 % of answers come within {p99.TotalMilliseconds:0.0} ms of a time-out of {timeout:0} ms: find what delays it, or raise timeout_ms"));
        }

        if (link.Kind == LinkKind.Serial && p50.TotalMilliseconds - WireMs(link) > MostHeldBackMs)
        {
            yield return (Grade.Usable, FormattableString.Invariant(
                $"a round trip takes {p50.TotalMilliseconds:0.0} ms where the wire takes {WireMs(link):0.0} ms: a slow device, or an adapter that holds bytes back; set its latency timer to 1 ms"));
        }
    }

    private static (Grade Grade, string Reason)? OfErrors(ErrorShare errors) =>
        errors.Lower > FailingErrorShare ? (Grade.Failing, $"{errors}: check wiring, shield and termination, and that no two devices share an address")
        : errors.Share > MostErrorShare ? (Grade.Poor, $"{errors}, and above 1 % units are held: check wiring, shield and termination")
        : errors.Upper > MostErrorShare ? (Grade.Usable, $"{errors}, so more than 1 % is not excluded: look at it again, or check wiring and termination")
        : null;

    private static IEnumerable<(Grade Grade, string Reason)> OfStream(DeviceCheck check, StreamDelivery stream, DeviceDescription device)
    {
        if (!check.Answered)
        {
            yield return (Grade.Failing, check.Fault?.Detail ?? "no frame came");
            yield break;
        }

        if (OfErrors(ErrorShare.Of(check.Errors, check.Reads)) is { } bad)
        {
            yield return bad;
        }

        double nominal = device.Stream!.RateHz;
        if (stream.RateHz is { } rate && Math.Abs(rate - nominal) > MostRateError * nominal)
        {
            yield return (Grade.Poor, FormattableString.Invariant(
                $"it pushes {rate:0.0} frames a second and the bench file says {nominal:0.0}: missing frames can't be told from a slow device; mend rate_hz or the device's setting"));
        }

        if (stream.DelayP99Ms > MostOfTimeout * device.TimeoutMs)
        {
            yield return (Grade.Usable, FormattableString.Invariant(
                $"one frame in a hundred is delivered more than {stream.DelayP99Ms:0.0} ms later than the least delayed, of a time-out of {device.TimeoutMs:0} ms: set the adapter's latency timer to 1 ms, keep the host free"));
        }
    }

    // Characters out and back, and the silence by which a device knows that the request is whole.
    private static double WireMs(LinkDescription link)
    {
        TimeSpan character = new WireRate(link.Baud, 1 + 8 + (link.Parity == SerialParity.None ? 0 : 1) + link.StopBits).CharacterTime;
        return ((character * Characters) + RtuTiming.Gap(character)).TotalMilliseconds;
    }
}

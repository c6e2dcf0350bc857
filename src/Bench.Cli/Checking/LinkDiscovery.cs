using Bench.Cli.Output;
using Bench.Devices.Discovery;
using Bench.Devices.Links;
using Bench.Model.BenchFiles;
using Bench.Model.Serialization;

namespace Bench.Cli.Checking;

/// <summary><c>bench check --discover</c>.</summary>
internal static class LinkDiscovery
{
    /// <summary>Walks and prints what answers. Stopped by a person, it prints what was found until then.</summary>
    /// <returns>The exit code.</returns>
    public static async Task<int> RunAsync(
        string place, string? addresses, string? speeds, ILinkOpener opener, TimeProvider time, bool json, CancellationToken cancel)
    {
        (LinkDescription link, DiscoveryRange range) = Read(place, addresses, speeds);
        TimeSpan longest = LinkWalk.LongestOf(link, range);
        Terminal.Say(FormattableString.Invariant(
            $"Asking {range.Addresses.Count} addresses; only reads; up to about {Math.Ceiling(longest.TotalMinutes):0} min where nobody answers. Ctrl-C stops and tells what was found."));
        List<DiscoveredDevice> found = [];
        bool stopped = false;
        using WalkProgress progress = new(range.Addresses.Count);
        try
        {
            await foreach (DiscoveryStep step in new LinkWalk(opener, time).WalkAsync(link, range, cancel))
            {
                progress.Show(step);
                if (step.Found is { } device)
                {
                    found.Add(device);
                    progress.Say(Words(device));
                }
            }
        }
        catch (OperationCanceledException) when (cancel.IsCancellationRequested)
        {
            stopped = true;
            progress.Say("Stopped.");
        }

        // Damage at one setting is of no interest where the same address answered well at another.
        found.RemoveAll(d => d.Answer == DiscoveredAnswer.Damaged && found.Exists(o => o.Address == d.Address && o.Answer != DiscoveredAnswer.Damaged));
        Print(found, range, stopped, json);
        return stopped ? ExitCode.Interrupted : found.Exists(d => d.Answer != DiscoveredAnswer.Damaged) ? ExitCode.Done : ExitCode.BenchFault;
    }

    private static (LinkDescription Link, DiscoveryRange Range) Read(string place, string? addresses, string? speeds)
    {
        string option = "--discover";
        try
        {
            LinkDescription link = LinkPlace.Parse(place);
            DiscoveryRange range = DiscoveryRange.Whole;
            option = "--addresses";
            range = addresses is null ? range : range with { Addresses = DiscoveryRange.ParseAddresses(addresses) };
            option = "--speeds";
            range = speeds is null ? range : range with { Bauds = DiscoveryRange.ParseBauds(speeds) };
            return speeds is not null && link.Kind == LinkKind.Tcp
                ? throw new FormatException("a TCP link has no speed; leave the option out")
                : (link, range);
        }
        catch (FormatException e)
        {
            throw new CliException(ExitCode.BadInput, $"{option}: {e.Message}");
        }
    }

    private static void Print(List<DiscoveredDevice> found, DiscoveryRange range, bool stopped, bool json)
    {
        DiscoveredDevice[] well = [.. found.Where(d => d.Answer != DiscoveredAnswer.Damaged)];
        string lines = DiscoveredLines.Of(well);
        if (json)
        {
            Terminal.Json(new
            {
                Stopped = stopped,
                Devices = found.Select(d => new
                {
                    d.Address,
                    d.Answer,
                    Baud = d.Link.Kind == LinkKind.Serial ? d.Link.Baud : (int?)null,
                    Parity = d.Link.Kind == LinkKind.Serial ? d.Link.Parity : (SerialParity?)null,
                    RoundTripMs = d.RoundTrip.TotalMilliseconds,
                }),
                BenchFileLines = lines,
            });
            return;
        }

        if (well.Length > 0)
        {
            Terminal.Result(lines);
        }

        Terminal.Say(well.Length switch
        {
            0 when found.Count > 0 => "Only damaged answers: two devices at one address, another parity, or a bad line; check termination, then try each device alone.",
            0 => "Nobody answers: check power and wiring (A and B exchanged?), and that no other program uses the link.",
            > 1 when well.Length == range.Addresses.Count => "Every address answers: probably one device that ignores its address.",
            _ when well.Select(d => (d.Link.Baud, d.Link.Parity)).Distinct().Count() > 1 =>
                "These devices stand at different settings; a link has one: set them alike, then run this again.",
            _ => "Give the devices names that say what they are.",
        });
    }

    private static string Words(DiscoveredDevice device)
    {
        string setting = device.Link.Kind == LinkKind.Serial ? $" at {device.Link.Baud} baud, parity {BenchJson.Word(device.Link.Parity)}" : "";
        return device.Answer switch
        {
            DiscoveredAnswer.Value => FormattableString.Invariant($"Address {device.Address} answers{setting} within {device.RoundTrip.TotalMilliseconds:0.0} ms."),
            DiscoveredAnswer.Refusal => FormattableString.Invariant($"Address {device.Address} answers{setting} within {device.RoundTrip.TotalMilliseconds:0.0} ms (it refuses that register, and so is there)."),
            _ => $"Address {device.Address}: a damaged answer{setting}.",
        };
    }
}

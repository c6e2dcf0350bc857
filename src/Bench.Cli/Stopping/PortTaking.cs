using Bench.Cli.Output;
using Bench.Devices.Links;
using Bench.Devices.Positions;
using Bench.Model.BenchFiles;
using Bench.Model.Instruments;

namespace Bench.Cli.Stopping;

/// <summary>Opens a bench although another process may hold its serial port (S10).</summary>
internal static class PortTaking
{
    /// <summary>
    /// How long another bench gets to let go: up to 2 s to confirm its outputs off, and time to seal its record and write
    /// the packet.
    /// </summary>
    private static readonly TimeSpan Patience = TimeSpan.FromSeconds(10);

    private static readonly TimeSpan BetweenTries = TimeSpan.FromMilliseconds(50);

    /// <summary>Opens the bench; asks a bench process of this program that holds a port of it to end first.</summary>
    /// <exception cref="DeviceFaultException">A link can't be opened, and nothing of this program holds it.</exception>
    /// <exception cref="CliException">Another program holds it, or the other bench does not let go.</exception>
    public static async Task<OpenBench> OpenAsync(BenchFile bench, TimeProvider time)
    {
        SystemLinkOpener opener = new(time);
        long begin = time.GetTimestamp();
        HashSet<int> asked = [];
        while (true)
        {
            try
            {
                return await BenchDevices.OpenAsync(bench, opener, time, CancellationToken.None);
            }
            catch (DeviceFaultException e) when (e.Fault.Kind == DeviceFaultKind.LinkLost)
            {
                LinkDescription link = bench.Links.First(l => l.Name == e.Fault.Link);
                if (PortHolder.Find(link) is { } holder)
                {
                    Ask(holder, link, asked, time.GetElapsedTime(begin));
                }
                else if (asked.Count == 0 || time.GetElapsedTime(begin) > Patience)
                {
                    throw;
                }
            }

            await Task.Delay(BetweenTries, time);
        }
    }

    private static void Ask(PortHolder holder, LinkDescription link, HashSet<int> asked, TimeSpan waited)
    {
        string who = $"{link.Port} is held by process {holder.Id} ({string.Join(' ', holder.Arguments)})";
        if (!OtherBench.Is(holder))
        {
            throw new CliException(
                ExitCode.SafetyAbort,
                $"{who}, which is another program: NOTHING WAS SWITCHED OFF. Cut the supply with the emergency stop; then end that program and try again.");
        }

        if (waited > Patience)
        {
            throw new CliException(
                ExitCode.SafetyAbort,
                $"{who}; it was asked to switch off and end, and has not let go in {Patience.TotalSeconds:0} s: NOTHING IS CONFIRMED OFF. Cut the supply with the emergency stop; then end it with 'kill -9 {holder.Id}' and try again.");
        }

        if (asked.Add(holder.Id))
        {
            Terminal.Say($"{who}; asking it to switch off and end.");
            if (!OtherBench.AskToEnd(holder))
            {
                throw new CliException(
                    ExitCode.SafetyAbort,
                    $"{who}, and this user may not end it: NOTHING WAS SWITCHED OFF. Cut the supply with the emergency stop; then try again as the user who started it.");
            }
        }
    }
}

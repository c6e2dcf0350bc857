using Bench.Cli.Output;
using Bench.Devices.Discovery;

namespace Bench.Cli.Checking;

/// <summary><c>bench check --ports</c>.</summary>
internal static class PortListing
{
    /// <summary>Prints the ports.</summary>
    /// <returns>The exit code.</returns>
    public static int Print(bool json)
    {
        IReadOnlyList<SerialPortPlace> ports = SerialPorts.List();
        if (json)
        {
            Terminal.Json(new { Ports = ports });
            return ExitCode.Done;
        }

        foreach (SerialPortPlace port in ports)
        {
            Terminal.Result(port.StablePath is { } stable ? $"{port.Port}  stable path {stable}" : port.Port);
        }

        Terminal.Say(ports.Count == 0
            ? "No serial port is present; plug the adapter in, then look again."
            : "Name the stable path in the bench file where there is one: it stays when adapters are plugged in another order.");
        return ExitCode.Done;
    }
}

using System.IO.Ports;
using System.Runtime.InteropServices;
using Bench.Devices.Modbus;
using Bench.Model.BenchFiles;
using Bench.Model.Instruments;

namespace Bench.Devices.Links;

/// <summary>Opens and configures serial ports.</summary>
internal static class SerialPortOpener
{
    private const string PseudoTerminals = "/dev/pts/";

    /// <exception cref="DeviceFaultException">The port can't be opened; the fault says what to mend.</exception>
    public static ILink Open(LinkDescription link)
    {
        int bits = 1 + 8 + (link.Parity == SerialParity.None ? 0 : 1) + link.StopBits;
        TimeSpan characterTime = new WireRate(link.Baud, bits).CharacterTime;
        if (OperatingSystem.IsWindows())
        {
            SerialPort port = Configure(link, link.Parity);
            return new SerialPortLink(link.Name, port, characterTime);
        }

        string path = Resolve(link.Port);
        int handle = Tty.Open(path);
        if (handle < 0)
        {
            throw Fault(link, ForError(link.Port, Marshal.GetLastPInvokeError(), Marshal.GetLastPInvokeErrorMessage()));
        }

        try
        {
            if (!Tty.TryOwn(handle))
            {
                throw Fault(link, InUse(link.Port));
            }

            // A pty has no parity bit, and asking it for one a second time is an error.
            bool pseudo = path.StartsWith(PseudoTerminals, StringComparison.Ordinal);

            // System.IO.Ports sets speed and frame; they stay set while our own handle is open.
            Configure(link, pseudo ? SerialParity.None : link.Parity).Dispose();
            Tty.RefuseOthers(handle);
            return new HandleLink(link.Name, handle, characterTime, endIsLoss: true, () =>
            {
                Tty.AdmitOthers(handle);
                Tty.Disown(handle);
                _ = Tty.Close(handle);
            });
        }
        catch
        {
            Tty.Disown(handle);
            _ = Tty.Close(handle);
            throw;
        }
    }

    private static SerialPort Configure(LinkDescription link, SerialParity parity)
    {
        SerialPort port = new(link.Port, link.Baud, Translate(parity), 8, link.StopBits == 2 ? StopBits.Two : StopBits.One)
        {
            Handshake = Handshake.None,
        };
        try
        {
            port.Open();
            return port;
        }
        catch (Exception e) when (e is IOException or UnauthorizedAccessException or ArgumentException)
        {
            port.Dispose();
            string detail = e switch
            {
                FileNotFoundException or DirectoryNotFoundException => Missing(link.Port),
                UnauthorizedAccessException => InUse(link.Port),
                _ => $"{link.Port} does not take {link.Baud} baud, parity {parity}, {link.StopBits} stop bits ({e.Message}); use a setting the adapter has",
            };
            throw Fault(link, detail, e);
        }
    }

    internal static string Resolve(string port)
    {
        try
        {
            return File.ResolveLinkTarget(port, returnFinalTarget: true)?.FullName ?? port;
        }
        catch (IOException)
        {
            return port; // opening it will say what is wrong
        }
    }

    private static string ForError(string port, int error, string message) => error switch
    {
        Tty.NoPermission => $"no permission to use {port}; add this user to the group that owns it (often 'dialout'), then log in again",
        Tty.Busy => InUse(port),
        _ when !File.Exists(port) => Missing(port),
        _ => $"{port} cannot be opened ({message}); unplug the adapter, plug it in again, and try once more",
    };

    private static string InUse(string port) =>
        $"{port} is in use by another program, or this user may not use it; close the other program (another bench?), then try again";

    private static string Missing(string port)
    {
        string[] there = SerialPort.GetPortNames();
        Array.Sort(there, StringComparer.Ordinal);
        string list = there.Length == 0 ? "no serial port is present" : $"ports present: {string.Join(", ", there)}";
        return $"no port {port}; plug the adapter in, or name another port in the bench file ({list})";
    }

    private static Parity Translate(SerialParity parity) => parity switch
    {
        SerialParity.Even => Parity.Even,
        SerialParity.Odd => Parity.Odd,
        _ => Parity.None,
    };

    private static DeviceFaultException Fault(LinkDescription link, string detail, Exception? inner = null) =>
        new(new DeviceFault(DeviceFaultKind.LinkLost, "serial port", link.Name, detail), inner);
}

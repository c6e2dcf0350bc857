using Bench.Devices.Links;
using Bench.Devices.Modbus;
using Bench.Model.BenchFiles;
using Bench.Simulation.Benches;

namespace Bench.Simulation.Serving;

/// <summary>
/// Serves one link of a simulated bench on a pseudo-terminal, so that any program that opens serial ports meets it.
/// Linux and macOS. First <see cref="Open"/>, to learn the path for the bench file; then <see cref="Serve"/>.
/// </summary>
public sealed class PtyHost : IAsyncDisposable
{
    private readonly int _master;
    private readonly int _slave;
    private Thread? _thread;
    private PtyMaster? _link;

    private PtyHost(int master, int slave, string path)
    {
        _master = master;
        _slave = slave;
        Path = path;
    }

    /// <summary>Path of the port a master opens.</summary>
    public string Path { get; }

    /// <summary>Opens a pseudo-terminal in raw mode.</summary>
    /// <exception cref="PlatformNotSupportedException">The system has none (Windows); serve over TCP instead.</exception>
    /// <exception cref="IOException">The system gives none.</exception>
    public static PtyHost Open()
    {
        if (OperatingSystem.IsWindows())
        {
            throw new PlatformNotSupportedException("this system has no pseudo-terminals; serve the bench over TCP instead");
        }

        (int master, int slave, string path) = Pty.Open();
        return new PtyHost(master, slave, path);
    }

    /// <summary>Begins to answer, on a thread of its own.</summary>
    /// <param name="bench">The bench, made with <paramref name="time"/>.</param>
    /// <param name="link">Name of the link in its file.</param>
    /// <param name="time">Clock; the system's.</param>
    /// <param name="paced">Whether answers take the time they would on the wire; else they come as fast as they can.</param>
    public void Serve(SimulatedBench bench, string link, TimeProvider time, bool paced)
    {
        ArgumentNullException.ThrowIfNull(bench);
        if (_thread is not null)
        {
            throw new InvalidOperationException($"{Path} is served already");
        }

        LinkDescription description = bench.File.Links.First(l => l.Name == link);
        TimeSpan character = paced ? SimulatedLinkOpener.CharacterTime(description) : TimeSpan.Zero;
        PtyMaster master = _link = new PtyMaster(
            link,
            _master,
            _slave,
            time,
            character,
            paced ? (description.Protocol == LinkProtocol.ModbusRtu ? RtuTiming.Gap(character) : TimeSpan.Zero) + SimulatedLinkOpener.Turnaround : TimeSpan.Zero);
        _thread = new Thread(() => Answer(bench, link, NoisyLink.Over(master, bench, link))) { IsBackground = true, Name = $"pty {Path}" };
        _thread.Start();
    }

    /// <summary>Stops answering and closes the pseudo-terminal.</summary>
    public async ValueTask DisposeAsync()
    {
        if (_link is not null)
        {
            await _link.DisposeAsync();
            _thread!.Join();
        }

        _ = Pty.Close(_slave);
        _ = Pty.Close(_master);
    }

    private static void Answer(SimulatedBench bench, string name, ILink link)
    {
        try
        {
            // The link blocks, so this completes before it returns.
            bench.ServeAsync(name, link, CancellationToken.None).GetAwaiter().GetResult();
        }
        catch (IOException)
        {
            // The pseudo-terminal is gone; its master will find no answer and say so.
        }
    }
}

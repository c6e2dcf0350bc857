using System.Diagnostics;

namespace Bench.Benchmarks.Links;

/// <summary>Another program to measure with or against; killed when disposed.</summary>
internal sealed class Peer : IDisposable
{
    private readonly Process _process;

    private Peer(Process process, IReadOnlyList<string> lines)
    {
        _process = process;
        Lines = lines;
    }

    /// <summary>Its process number.</summary>
    public int Id => _process.Id;

    /// <summary>What it had printed before it said "ready".</summary>
    public IReadOnlyList<string> Lines { get; }

    /// <summary>Builds a C program of this folder against libmodbus.</summary>
    /// <returns>The program's path.</returns>
    public static async Task<string> BuildAsync(string name)
    {
        string built = Path.Combine(Path.GetTempPath(), $"bench-{Environment.ProcessId}-{name}");
        string source = Path.Combine(AppContext.BaseDirectory, "Peers", $"{name}.c");
        await RunAsync("cc", "-O2", "-o", built, source, "-I/usr/include/modbus", "-lmodbus");
        return built;
    }

    /// <summary>Starts a program and waits until it says "ready".</summary>
    public static async Task<Peer> StartAsync(string program, params string[] arguments)
    {
        Process process = Begin(program, arguments);
        List<string> lines = [];
        while (await process.StandardOutput.ReadLineAsync() is string line)
        {
            if (line == "ready")
            {
                return new Peer(process, lines);
            }

            lines.Add(line);
        }

        throw new InvalidOperationException($"{program} {string.Join(' ', arguments)} ended before it was ready");
    }

    /// <summary>Runs a program to its end.</summary>
    /// <returns>What it printed.</returns>
    public static async Task<string> RunAsync(string program, params string[] arguments)
    {
        using Process process = Begin(program, arguments);
        string printed = await process.StandardOutput.ReadToEndAsync();
        await process.WaitForExitAsync();
        return process.ExitCode == 0
            ? printed
            : throw new InvalidOperationException($"{program} {string.Join(' ', arguments)} ended with {process.ExitCode}");
    }

    /// <inheritdoc/>
    public void Dispose()
    {
        if (!_process.HasExited)
        {
            _process.Kill();
        }

        _process.Dispose();
    }

    private static Process Begin(string program, string[] arguments) =>
        Process.Start(new ProcessStartInfo(program, arguments) { RedirectStandardOutput = true })
        ?? throw new InvalidOperationException($"{program} did not start");
}

namespace Bench.SystemTests.Programs;

/// <summary><c>bench sim</c> as a process of its own. Stopped when disposed.</summary>
public sealed class SimProgram : IAsyncDisposable
{
    private readonly RunningProgram _program;

    private SimProgram(RunningProgram program, string benchFile)
    {
        _program = program;
        BenchFile = benchFile;
    }

    /// <summary>The bench file it wrote.</summary>
    public string BenchFile { get; }

    /// <summary>Starts one on a pty and waits until it serves.</summary>
    public static Task<SimProgram> OnPtyAsync(TemporaryFolder folder, params string[] units)
    {
        Assert.SkipWhen(OperatingSystem.IsWindows(), "no pseudo-terminals");
        return StartAsync(folder, [], units);
    }

    /// <summary>Starts one on a free TCP port and waits until it serves.</summary>
    public static Task<SimProgram> OnTcpAsync(TemporaryFolder folder, params string[] units) => StartAsync(folder, ["--tcp", "0"], units);

    /// <summary>Stops it as a person does.</summary>
    public async Task<Finished> StopAsync()
    {
        await _program.SignalAsync("TERM");
        return await _program.EndAsync();
    }

    public ValueTask DisposeAsync() => _program.DisposeAsync();

    private static async Task<SimProgram> StartAsync(TemporaryFolder folder, string[] how, string[] units)
    {
        string file = folder.At("sim-bench.toml");
        RunningProgram program = BenchProgram.Start(["sim", "--bench-file", file, .. how, .. units.SelectMany(u => new[] { "--unit", u })]);
        try
        {
            await program.PrintsAsync("Serving until stopped");
            return new SimProgram(program, file);
        }
        catch
        {
            await program.DisposeAsync();
            throw;
        }
    }
}

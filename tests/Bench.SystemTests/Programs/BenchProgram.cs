namespace Bench.SystemTests.Programs;

/// <summary>The built <c>bench</c>, run as a user would: a process of its own.</summary>
public static class BenchProgram
{
    /// <summary>The program in the build's output, of the same configuration as these tests.</summary>
    public static string Path { get; } = Find();

    /// <summary>Runs it to its end.</summary>
    public static async Task<Finished> RunAsync(params string[] arguments)
    {
        await using RunningProgram running = Start(arguments);
        return await running.EndAsync();
    }

    /// <summary>Starts it.</summary>
    public static RunningProgram Start(params string[] arguments) =>
        RunningProgram.Start(Path, arguments, environment: new Dictionary<string, string> { ["NO_COLOR"] = "1", ["XDG_CONFIG_HOME"] = NoKeys });

    // Whoever runs the tests may have a key; what they hold does not hang on it.
    private static string NoKeys => System.IO.Path.Combine(System.IO.Path.GetTempPath(), "bench-no-keys");

    private static string Find()
    {
        string configuration = new DirectoryInfo(AppContext.BaseDirectory).Name;
        string path = RepositoryFolder.At(".artifacts", "bin", "Bench.Cli", configuration, OperatingSystem.IsWindows() ? "bench.exe" : "bench");
        return File.Exists(path) ? path : throw new FileNotFoundException($"{path}: build the solution first");
    }
}

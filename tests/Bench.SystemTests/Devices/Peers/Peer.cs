using System.Diagnostics;

namespace Bench.SystemTests.Devices.Peers;

/// <summary>Another program that a test talks to. Killed when disposed.</summary>
public sealed class Peer : IAsyncDisposable
{
    private readonly Process _process;
    private bool _ended;

    private Peer(Process process)
    {
        _process = process;
    }

    /// <summary>Starts a program and waits until it has printed a line that holds a word, on either stream.</summary>
    public static async Task<Peer> StartAsync(string ready, string program, params string[] arguments)
    {
        Process process = Begin(program, arguments);
        TaskCompletionSource isReady = new(TaskCreationOptions.RunContinuationsAsynchronously);
        List<string> printed = [];
        void Take(string? line)
        {
            lock (printed)
            {
                printed.Add(line ?? "(end)");
                if (line?.Contains(ready, StringComparison.Ordinal) == true)
                {
                    isReady.TrySetResult();
                }
            }
        }

        process.OutputDataReceived += (_, e) => Take(e.Data);
        process.ErrorDataReceived += (_, e) => Take(e.Data);
        process.Exited += (_, _) => isReady.TrySetException(
            new InvalidOperationException($"{program} ended before it was ready: {string.Join(" / ", printed)}"));
        process.EnableRaisingEvents = true;
        process.BeginOutputReadLine();
        process.BeginErrorReadLine();
        await isReady.Task.WaitAsync(TestContext.Current.CancellationToken);
        return new Peer(process);
    }

    /// <summary>Runs a program to its end.</summary>
    /// <returns>Its exit code and everything it printed.</returns>
    public static async Task<(int Code, string Printed)> RunAsync(string program, params string[] arguments)
    {
        using Process process = Begin(program, arguments);
        Task<string> errors = process.StandardError.ReadToEndAsync(TestContext.Current.CancellationToken);
        string printed = await process.StandardOutput.ReadToEndAsync(TestContext.Current.CancellationToken);
        await process.WaitForExitAsync(TestContext.Current.CancellationToken);
        return (process.ExitCode, printed + await errors);
    }

    /// <summary>Skips the test, with the reason, where a program is not installed.</summary>
    public static void Need(string program)
    {
        string[] folders = (Environment.GetEnvironmentVariable("PATH") ?? "").Split(Path.PathSeparator);
        Assert.SkipUnless(
            File.Exists(program) || folders.Any(f => File.Exists(Path.Combine(f, program))), $"{program} is not installed on this machine");
    }

    public async ValueTask DisposeAsync()
    {
        if (_ended)
        {
            return;
        }

        _ended = true;
        if (!_process.HasExited)
        {
            _process.Kill(entireProcessTree: true);
        }

        await _process.WaitForExitAsync(CancellationToken.None);
        _process.Dispose();
    }

    private static Process Begin(string program, string[] arguments)
    {
        ProcessStartInfo start = new(program) { RedirectStandardOutput = true, RedirectStandardError = true };
        foreach (string argument in arguments)
        {
            start.ArgumentList.Add(argument);
        }

        return Process.Start(start) ?? throw new InvalidOperationException($"{program} did not start");
    }
}

using System.Diagnostics;
using System.Globalization;
using System.Text;

namespace Bench.SystemTests.Programs;

/// <summary>A program under test while it runs. Killed when disposed. No wait is longer than <see cref="Patience"/>.</summary>
public sealed class RunningProgram : IAsyncDisposable
{
    /// <summary>Longest wait for anything; far more than anything takes.</summary>
    public static readonly TimeSpan Patience = TimeSpan.FromSeconds(60);

    private readonly Process _process;
    private readonly Lock _lock = new();
    private readonly StringBuilder _output = new();
    private readonly StringBuilder _error = new();
    private TaskCompletionSource _more = new(TaskCreationOptions.RunContinuationsAsynchronously);

    private RunningProgram(Process process) => _process = process;

    /// <summary>Starts a program with nothing on standard input.</summary>
    public static RunningProgram Start(string program, IEnumerable<string> arguments, string? workingFolder = null, IReadOnlyDictionary<string, string>? environment = null)
    {
        ProcessStartInfo start = new(program, arguments)
        {
            RedirectStandardInput = true,
            RedirectStandardOutput = true,
            RedirectStandardError = true,
            WorkingDirectory = workingFolder ?? "",
        };
        foreach ((string key, string value) in environment ?? new Dictionary<string, string>())
        {
            start.Environment[key] = value;
        }

        RunningProgram running = new(new Process { StartInfo = start });
        running._process.OutputDataReceived += (_, e) => running.Take(running._output, e.Data);
        running._process.ErrorDataReceived += (_, e) => running.Take(running._error, e.Data);
        running._process.Start();
        running._process.StandardInput.Close();
        running._process.BeginOutputReadLine();
        running._process.BeginErrorReadLine();
        return running;
    }

    /// <summary>Waits until words were printed, on either stream.</summary>
    public async Task PrintsAsync(string words)
    {
        using CancellationTokenSource patience = Wait();
        while (true)
        {
            Task more;
            lock (_lock)
            {
                if (_output.ToString().Contains(words, StringComparison.Ordinal) || _error.ToString().Contains(words, StringComparison.Ordinal))
                {
                    return;
                }

                more = _more.Task;
                if (more.IsCompleted && _process.HasExited)
                {
                    Assert.Fail($"it ended without '{words}': {_output} {_error}");
                }
            }

            await more.WaitAsync(patience.Token);
        }
    }

    /// <summary>Sends a signal: <c>INT</c>, <c>TERM</c>, <c>KILL</c>.</summary>
    public async Task SignalAsync(string name)
    {
        using Process kill = Process.Start("kill", [$"-{name}", _process.Id.ToString(CultureInfo.InvariantCulture)]);
        using CancellationTokenSource patience = Wait();
        await kill.WaitForExitAsync(patience.Token);
        Assert.Equal(0, kill.ExitCode);
    }

    /// <summary>Waits for its end.</summary>
    /// <param name="most">How long, where <see cref="Patience"/> is too short.</param>
    public async Task<Finished> EndAsync(TimeSpan? most = null)
    {
        using CancellationTokenSource patience = Wait(most);
        await _process.WaitForExitAsync(patience.Token);
        lock (_lock)
        {
            return new Finished(_process.ExitCode, _output.ToString(), _error.ToString());
        }
    }

    public async ValueTask DisposeAsync()
    {
        if (!_process.HasExited)
        {
            _process.Kill(entireProcessTree: true);
        }

        await _process.WaitForExitAsync(CancellationToken.None);
        _process.Dispose();
    }

    private static CancellationTokenSource Wait(TimeSpan? most = null)
    {
        CancellationTokenSource patience = CancellationTokenSource.CreateLinkedTokenSource(TestContext.Current.CancellationToken);
        patience.CancelAfter(most ?? Patience);
        return patience;
    }

    private void Take(StringBuilder stream, string? line)
    {
        TaskCompletionSource told;
        lock (_lock)
        {
            if (line is not null)
            {
                stream.Append(line).Append('\n');
                told = _more;
                _more = new TaskCompletionSource(TaskCreationOptions.RunContinuationsAsynchronously);
            }
            else
            {
                told = _more; // the end of a stream: whoever still waits looks at it, and sees that no more comes
            }
        }

        told.TrySetResult();
    }
}

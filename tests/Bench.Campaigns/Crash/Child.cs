using System.Diagnostics;

namespace Bench.Campaigns.Crash;

/// <summary>A process under test whose standard output is read line by line, and that can be killed without warning.</summary>
internal sealed class Child : IDisposable
{
    private static readonly TimeSpan Patience = TimeSpan.FromSeconds(120);

    private readonly Process _process;
    private readonly Thread _reader;
    private readonly Thread _errors;
    private readonly Action<string> _take;
    private readonly object _lock = new();
    private readonly List<(string Word, long At)> _heard = [];
    private string _error = "";

    private Child(ProcessStartInfo start, Action<string> take)
    {
        _take = take;
        start.RedirectStandardOutput = true;
        start.RedirectStandardError = true;
        start.RedirectStandardInput = true;
        _process = Process.Start(start) ?? throw new InvalidOperationException($"{start.FileName} does not start");
        _process.StandardInput.Close();
        _reader = new Thread(Read);
        _reader.Start();
        _errors = new Thread(() => _error = _process.StandardError.ReadToEnd());
        _errors.Start();
    }

    /// <summary>Whether it has ended.</summary>
    public bool HasEnded => _process.HasExited;

    /// <summary>What it said on standard error; complete once it has ended.</summary>
    public string Error => _error;

    /// <summary>Starts this program in another mode.</summary>
    public static Child OfCampaign(Action<string> take, params string[] arguments) => new(new ProcessStartInfo(Environment.ProcessPath!, arguments), take);

    /// <summary>Starts the real <c>bench</c>.</summary>
    public static Child OfBench(params string[] arguments) => new(new ProcessStartInfo(BenchPath, arguments), static _ => { });

    /// <summary>Starts any program.</summary>
    public static Child Of(string program, Action<string> take, params string[] arguments) => new(new ProcessStartInfo(program, arguments), take);

    /// <summary>The <c>bench</c> of the same configuration as this program.</summary>
    public static string BenchPath { get; } =
        Path.Combine(Repository.Root, ".artifacts", "bin", "Bench.Cli", new DirectoryInfo(AppContext.BaseDirectory).Name, "bench");

    /// <summary>Waits until it has said a line that begins with a word so many times, or has ended.</summary>
    /// <returns>Whether it said it.</returns>
    public bool Says(string word, int times = 1)
    {
        lock (_lock)
        {
            while (_heard.Count(h => h.Word == word) < times)
            {
                if (_heard is [.., { Word: "" }])
                {
                    return false;
                }

                if (!Monitor.Wait(_lock, Patience))
                {
                    throw new TimeoutException($"it did not say '{word}' in {Patience.TotalSeconds:0} s; {_error}");
                }
            }

            return true;
        }
    }

    /// <summary>Kills it (SIGKILL) after a time, or finds it ended.</summary>
    /// <returns>Whether it was killed.</returns>
    public bool KillAfter(TimeSpan wait)
    {
        bool ended = _process.WaitForExit(wait);
        if (!ended)
        {
            _process.Kill();
        }

        return End() != 0 && !ended;
    }

    /// <summary>Waits for its end.</summary>
    /// <returns>Its exit code.</returns>
    public int End()
    {
        if (!_process.WaitForExit(Patience))
        {
            throw new TimeoutException($"it did not end in {Patience.TotalSeconds:0} s");
        }

        _reader.Join();
        _errors.Join();
        return _process.ExitCode;
    }

    /// <summary>Waits for its end, which must be a good one: nothing is shown where the trial itself did not come off.</summary>
    public void Succeed()
    {
        if (End() is int code and not 0)
        {
            throw new InvalidOperationException($"{_process.StartInfo.FileName} {string.Join(' ', _process.StartInfo.ArgumentList)} ended with {code}: {_error}");
        }
    }

    /// <summary>Seconds between the first line that begins with one word and the first after it that begins with another; null when not both were said.</summary>
    public double? Between(string first, string then)
    {
        lock (_lock)
        {
            int a = _heard.FindIndex(h => h.Word == first);
            int b = a < 0 ? -1 : _heard.FindIndex(a, h => h.Word == then);
            return b < 0 ? null : Stopwatch.GetElapsedTime(_heard[a].At, _heard[b].At).TotalSeconds;
        }
    }

    /// <inheritdoc/>
    public void Dispose()
    {
        if (!_process.HasExited)
        {
            _process.Kill();
        }

        End();
        _process.Dispose();
    }

    private void Read()
    {
        while (_process.StandardOutput.ReadLine() is { } line)
        {
            lock (_lock)
            {
                _take(line);
                _heard.Add((line.Split(' ')[0], Stopwatch.GetTimestamp()));
                Monitor.PulseAll(_lock);
            }
        }

        lock (_lock)
        {
            _heard.Add(("", 0));
            Monitor.PulseAll(_lock);
        }
    }
}

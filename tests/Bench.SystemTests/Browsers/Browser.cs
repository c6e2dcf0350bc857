using System.Diagnostics;
using Bench.SystemTests.Devices.Peers;
using Bench.SystemTests.Programs;

namespace Bench.SystemTests.Browsers;

/// <summary>A Chromium without a window, spoken to over its DevTools protocol on loopback. Killed when disposed.</summary>
public sealed class Browser : IAsyncLifetime
{
    private const string Program = "chromium";
    private const string Ready = "DevTools listening on ";

    private readonly TemporaryFolder _profile = new();
    private Process? _process;
    private Uri? _address;

    /// <summary>Opens a page and waits until it is loaded; skips the test where there is no Chromium.</summary>
    /// <param name="file">The file.</param>
    /// <param name="width">Width of the window, CSS pixels.</param>
    /// <param name="dark">Whether the reader prefers dark.</param>
    public async Task<BrowserPage> OpenAsync(string file, int width, bool dark = false)
    {
        Peer.Need(Program);
        return await BrowserPage.OpenAsync(await StartedAsync(), file, width, dark);
    }

    public ValueTask InitializeAsync() => ValueTask.CompletedTask;

    public async ValueTask DisposeAsync()
    {
        if (_process is not null)
        {
            _process.Kill(entireProcessTree: true);
            await _process.WaitForExitAsync(CancellationToken.None);
            _process.Dispose();
        }

        _profile.Dispose();
    }

    private async Task<Uri> StartedAsync()
    {
        if (_address is not null)
        {
            return _address;
        }

        // Without a sandbox: in a container it can't be made, and what is opened is our own.
        ProcessStartInfo start = new(
            Program,
            ["--headless", "--no-sandbox", "--disable-gpu", "--hide-scrollbars", "--remote-debugging-port=0", $"--user-data-dir={_profile.Path}", "about:blank"])
        {
            RedirectStandardError = true,
            RedirectStandardOutput = true,
        };
        _process = Process.Start(start) ?? throw new InvalidOperationException($"{Program} did not start");
        while (await _process.StandardError.ReadLineAsync(TestContext.Current.CancellationToken) is string line)
        {
            if (line.StartsWith(Ready, StringComparison.Ordinal))
            {
                // Its grumbling is read on, or it would stand still once the pipe is full.
                _process.ErrorDataReceived += (_, _) => { };
                _ = _process.StandardError.BaseStream.CopyToAsync(Stream.Null, CancellationToken.None);
                return _address = new Uri(line[Ready.Length..]);
            }
        }

        throw new InvalidOperationException($"{Program} ended before it was ready");
    }
}

using System.Net.WebSockets;
using System.Text.Json;
using System.Text.Json.Nodes;

namespace Bench.SystemTests.Browsers;

/// <summary>A page in a <see cref="Browser"/>. One call at a time.</summary>
public sealed class BrowserPage : IAsyncDisposable
{
    private readonly ClientWebSocket _socket = new();
    private readonly List<string> _events = [];
    private string? _session;
    private int _last;

    private BrowserPage()
    {
    }

    /// <summary>The value of a JavaScript expression; of a promise what it resolves to.</summary>
    /// <exception cref="InvalidOperationException">It threw.</exception>
    public async Task<JsonElement> EvaluateAsync(string expression)
    {
        JsonElement answer = await CallAsync("Runtime.evaluate", new { expression, awaitPromise = true, returnByValue = true });
        return answer.TryGetProperty("exceptionDetails", out JsonElement thrown)
            ? throw new InvalidOperationException($"the page's script failed: {thrown}")
            : answer.GetProperty("result").TryGetProperty("value", out JsonElement value) ? value : default;
    }

    /// <summary>What the page is to a screen reader: the nodes that are not ignored.</summary>
    public async Task<JsonElement> AccessibilityTreeAsync()
    {
        await CallAsync("Accessibility.enable", new { });
        JsonElement tree = await CallAsync("Accessibility.getFullAXTree", new { });
        return JsonSerializer.SerializeToElement(tree.GetProperty("nodes").EnumerateArray().Where(n => !n.GetProperty("ignored").GetBoolean()));
    }

    public async ValueTask DisposeAsync()
    {
        await _socket.CloseOutputAsync(WebSocketCloseStatus.NormalClosure, null, CancellationToken.None);
        _socket.Dispose();
    }

    internal static async Task<BrowserPage> OpenAsync(Uri browser, string file, int width, bool dark)
    {
        const int height = 800;
        BrowserPage page = new();
        await page._socket.ConnectAsync(browser, TestContext.Current.CancellationToken);
        JsonElement target = await page.CallAsync("Target.createTarget", new { url = "about:blank" });
        JsonElement session = await page.CallAsync("Target.attachToTarget", new { targetId = target.GetProperty("targetId").GetString(), flatten = true });
        page._session = session.GetProperty("sessionId").GetString();
        await page.CallAsync("Emulation.setDeviceMetricsOverride", new { width, height, deviceScaleFactor = 1, mobile = false });
        await page.CallAsync("Emulation.setEmulatedMedia", new { features = (object[])[new { name = "prefers-color-scheme", value = dark ? "dark" : "light" }] });
        await page.CallAsync("Page.enable", new { });
        await page.CallAsync("Page.navigate", new { url = new Uri(Path.GetFullPath(file)).AbsoluteUri });
        while (!page._events.Contains("Page.loadEventFired"))
        {
            page.Take(await page.ReadAsync());
        }

        await page.EvaluateAsync("document.fonts.ready.then(() => true)");
        return page;
    }

    private async Task<JsonElement> CallAsync(string method, object parameters)
    {
        int id = ++_last;
        JsonObject message = new() { ["id"] = id, ["method"] = method, ["params"] = JsonSerializer.SerializeToNode(parameters) };
        if (_session is not null)
        {
            message["sessionId"] = _session;
        }

        await _socket.SendAsync(JsonSerializer.SerializeToUtf8Bytes(message), WebSocketMessageType.Text, true, TestContext.Current.CancellationToken);
        while (true)
        {
            JsonElement answer = await ReadAsync();
            if (!answer.TryGetProperty("id", out JsonElement of) || of.GetInt32() != id)
            {
                Take(answer);
                continue;
            }

            return answer.TryGetProperty("error", out JsonElement error)
                ? throw new InvalidOperationException($"the browser refused {method}: {error}")
                : answer.GetProperty("result");
        }
    }

    private void Take(JsonElement message)
    {
        if (message.TryGetProperty("method", out JsonElement method))
        {
            _events.Add(method.GetString()!);
        }
    }

    private async Task<JsonElement> ReadAsync()
    {
        using MemoryStream message = new();
        byte[] part = new byte[1 << 16];
        ValueWebSocketReceiveResult got;
        do
        {
            got = await _socket.ReceiveAsync(part.AsMemory(), TestContext.Current.CancellationToken);
            message.Write(part, 0, got.Count);
        }
        while (!got.EndOfMessage);
        using JsonDocument document = JsonDocument.Parse(message.ToArray());
        return document.RootElement.Clone();
    }
}

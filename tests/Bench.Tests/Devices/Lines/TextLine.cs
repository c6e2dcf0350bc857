using System.Text;
using Bench.Devices.Buses;
using Bench.Devices.Lines;
using Bench.Model.BenchFiles;

namespace Bench.Tests.Devices.Lines;

/// <summary>A link that carries lines, with one device whose answers are a function.</summary>
public sealed class TextLine
{
    private readonly string _terminator;

    public TextLine(SteppedTime time, Func<string, string?> answer, string terminator = "\n")
    {
        _terminator = terminator;
        Answer = answer;
        Link = new ScriptedLink(time) { Far = Far };
        Device = new LineDevice(
            new LinkOwner<LineClient>("line", new LineClient(Link, time)),
            new DeviceDescription { Name = "instrument", Link = "line", TimeoutMs = 40 },
            terminator,
            isFeedback: false);
    }

    public Func<string, string?> Answer { get; set; }

    public ScriptedLink Link { get; }

    public LineDevice Device { get; }

    /// <summary>Lines received, in order.</summary>
    public List<string> Heard { get; } = [];

    private IEnumerable<(TimeSpan After, byte[] Bytes)> Far(byte[] request)
    {
        string line = Encoding.ASCII.GetString(request);
        Assert.EndsWith(_terminator, line, StringComparison.Ordinal);
        line = line[..^_terminator.Length];
        Heard.Add(line);
        return Answer(line) is string text ? [(TimeSpan.FromMilliseconds(2), Encoding.Latin1.GetBytes(text + _terminator))] : [];
    }
}

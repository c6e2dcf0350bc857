using Bench.Cli.Output;
using Bench.Devices.Discovery;
using Bench.Model.BenchFiles;
using Bench.Model.Serialization;

namespace Bench.Cli.Checking;

/// <summary>Where a walk is: a line drawn over where a person looks, one line a setting elsewhere.</summary>
internal sealed class WalkProgress(int addresses) : IDisposable
{
    private const int Width = 72;
    private LinkDescription? _setting;
    private int _asked;
    private bool _open;

    /// <summary>Shows a step.</summary>
    public void Show(DiscoveryStep step)
    {
        bool begins = step.Link != _setting;
        _asked = begins ? 1 : _asked + 1;
        _setting = step.Link;
        string setting = step.Link.Kind == LinkKind.Serial ? $"{step.Link.Baud} baud, parity {BenchJson.Word(step.Link.Parity)}" : $"{step.Link.Host}, port {step.Link.TcpPort}";
        if (Terminal.CanDraw)
        {
            Console.Error.Write($"\r{$"{setting}: address {step.Address}, {_asked} of {addresses}".PadRight(Width)}");
            _open = true;
        }
        else if (begins)
        {
            Terminal.Say($"{setting} ...");
        }
    }

    /// <summary>Says a line of its own.</summary>
    public void Say(string text)
    {
        Dispose();
        Terminal.Say(text);
    }

    /// <inheritdoc/>
    public void Dispose()
    {
        if (_open)
        {
            Console.Error.WriteLine();
            _open = false;
        }
    }
}

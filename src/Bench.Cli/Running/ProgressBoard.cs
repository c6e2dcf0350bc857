using Bench.Cli.Output;
using Bench.Model.Serialization;
using Bench.Running;
using Spectre.Console;

namespace Bench.Cli.Running;

/// <summary>Live progress for a person: stage, move, ring tested, time left; one line that is drawn over.</summary>
internal sealed class ProgressBoard : IRunObserver, IDisposable
{
    private readonly IAnsiConsole _console = AnsiConsole.Create(new AnsiConsoleSettings { Out = new AnsiConsoleOutput(Console.Error) });
    private Bench.Model.Moves.StageKind? _stage;
    private bool _open;

    /// <inheritdoc/>
    public void Progress(RunProgress progress)
    {
        if (progress.Stage is not { } stage)
        {
            // Nothing moves yet: what is told now is read, not watched.
            EndLine();
            Terminal.Say("  - ", [progress.Text]);
            return;
        }

        if (stage != _stage)
        {
            EndLine();
            _stage = stage;
        }

        string left = progress.RemainingS is { } r ? FormattableString.Invariant($"about {r:0} s to go") : "";
        string text = FormattableString.Invariant($"{BenchJson.Word(stage),-11}  move {progress.Moves + 1,-3} {progress.Text,-32} ring tested {progress.RingCoverage,4:P0}  {left}");
        int width = Math.Max(20, _console.Profile.Width - 1);
        _console.Write(new ControlCode("\r"));
        _console.Write(new Text(text.Length > width ? text[..width] : text.PadRight(width)));
        _open = true;
    }

    /// <inheritdoc/>
    public void Dispose() => EndLine();

    private void EndLine()
    {
        if (_open)
        {
            _console.WriteLine();
            _open = false;
        }
    }
}

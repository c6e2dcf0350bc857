using Bench.Cli.Output;
using Bench.Model.Serialization;
using Bench.Running;

namespace Bench.Cli.Running;

/// <summary>Progress as plain lines, one a stage and one every few seconds: for logs, pipes and dumb terminals.</summary>
/// <param name="prefix">What each line begins with.</param>
internal sealed class ProgressLines(string prefix = "") : IRunObserver
{
    private const double EveryS = 10;
    private Bench.Model.Moves.StageKind? _stage;
    private double _saidS = double.NegativeInfinity;

    /// <inheritdoc/>
    public void Progress(RunProgress progress)
    {
        if (progress.Stage == _stage && progress.ElapsedS < _saidS + EveryS)
        {
            return;
        }

        _stage = progress.Stage;
        _saidS = progress.ElapsedS;
        string stage = progress.Stage is { } s ? BenchJson.Word(s) : "start";
        string left = progress.RemainingS is { } r ? FormattableString.Invariant($", about {r:0} s of moves to go") : "";
        Terminal.Say(FormattableString.Invariant($"{prefix}{progress.ElapsedS,6:0.0} s  {stage}: {progress.Text} (moves {progress.Moves}, ring tested {progress.RingCoverage:P0}{left})"));
    }
}

using Bench.Cli.Output;
using Bench.Model.Serialization;
using Bench.Running;

namespace Bench.Cli.Running;

/// <summary>Several units on a terminal, a line each that is drawn over. What needs a person at once is said whole, above them.</summary>
internal sealed class UnitBoard : IUnitsDisplay
{
    private readonly Lock _lock = new();
    private readonly IReadOnlyList<PlannedUnit> _units;
    private readonly string[] _rows;
    private readonly int _nameWidth;
    private bool _drawn;

    public UnitBoard(IReadOnlyList<PlannedUnit> units)
    {
        _units = units;
        _rows = [.. units.Select(_ => "")];
        _nameWidth = units.Max(u => u.Name.Length);
    }

    /// <inheritdoc/>
    public IRunObserver Observer(int unit) => new Row(this, unit);

    /// <inheritdoc/>
    public void Ended(int unit, UnitResult result)
    {
        lock (_lock)
        {
            _rows[unit] = result.Line;
            if (result.IsAlarm)
            {
                Wipe_NeedsLock();
                Terminal.Say("", [$"{_units[unit].Name}  {result.Line}"]);
            }

            // Before the first move the questions still stand here.
            if (_drawn || result.IsAlarm)
            {
                Draw_NeedsLock();
            }
        }
    }

    /// <inheritdoc/>
    public void Dispose()
    {
    }

    private void Show(int unit, RunProgress progress)
    {
        string stage = progress.Stage is { } s ? BenchJson.Word(s) : "start";
        string left = progress.RemainingS is { } r ? FormattableString.Invariant($"{r:0} s to go") : "";
        lock (_lock)
        {
            _rows[unit] = FormattableString.Invariant(
                $"{stage,-10}  move {progress.Moves + 1,-3}  ring {progress.RingCoverage,5:P0}  {left,-12}  {progress.Text}");
            Draw_NeedsLock();
        }
    }

    // Control sequences of ECMA-48: cursor up (CUU), erase to the end of the display (ED).
    private void Wipe_NeedsLock()
    {
        if (_drawn)
        {
            Console.Error.Write($"\u001b[{_rows.Length}A\u001b[J");
            _drawn = false;
        }
    }

    private void Draw_NeedsLock()
    {
        int width = Terminal.MessageWidth ?? 80;
        Wipe_NeedsLock();
        Console.Error.Write(string.Concat(_rows.Select((row, i) => $"{Cut($"{_units[i].Name.PadRight(_nameWidth)}  {row}", width)}\n")));
        _drawn = true;
    }

    private static string Cut(string text, int width) => text.Length > width ? text[..width] : text;

    private sealed class Row(UnitBoard board, int unit) : IRunObserver
    {
        public void Progress(RunProgress progress) => board.Show(unit, progress);
    }
}

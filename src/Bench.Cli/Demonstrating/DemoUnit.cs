using Bench.Model.Judging;
using Bench.Model.Returns;

namespace Bench.Cli.Demonstrating;

/// <summary>A made-up return for the demo, and what a right verdict on it would be.</summary>
/// <param name="Serial">Serial number.</param>
/// <param name="Family">Id of its family.</param>
/// <param name="Condition">Condition the simulator is given.</param>
/// <param name="Symptom">What the field reported.</param>
/// <param name="FieldNote">What the field wrote.</param>
/// <param name="Right">Dispositions that are right for the condition; null among them stands for a held run.</param>
internal sealed record DemoUnit(
    string Serial, string Family, string Condition, Symptom Symptom, string FieldNote, IReadOnlyList<Disposition?> Right);

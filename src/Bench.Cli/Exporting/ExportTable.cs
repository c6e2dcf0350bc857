namespace Bench.Cli.Exporting;

/// <summary>Rows for another program.</summary>
/// <param name="Columns">Names, snake_case with the unit at the end where the whole column has one.</param>
/// <param name="Rows">One cell a column: text, whole number, <see cref="double"/>, <see cref="bool"/>, or null for not known.</param>
internal sealed record ExportTable(IReadOnlyList<string> Columns, IEnumerable<object?[]> Rows);

using System.Globalization;

namespace Bench.Cli.Exporting;

/// <summary>Rows for another program.</summary>
/// <param name="Columns">The columns.</param>
/// <param name="Rows">A cell a column, of its kind or null for not known. Read once, as they are written: there may be millions.</param>
internal sealed record ExportTable(IReadOnlyList<ExportColumn> Columns, IEnumerable<object?[]> Rows)
{
    /// <summary>An instant as text: UTC after RFC 3339, always as long, so that the order of texts is the order of times.</summary>
    public static string InstantText(DateTimeOffset at) => at.UtcDateTime.ToString("O", CultureInfo.InvariantCulture);
}

namespace Bench.Cli.Exporting;

/// <summary>A column of a table for another program.</summary>
/// <param name="Name">snake_case, with the unit at the end where the whole column has one.</param>
/// <param name="Kind">What its cells hold.</param>
internal sealed record ExportColumn(string Name, CellKind Kind)
{
    /// <summary>A column of text.</summary>
    public static ExportColumn Text(string name) => new(name, CellKind.Text);

    /// <summary>A column of whole numbers.</summary>
    public static ExportColumn Whole(string name) => new(name, CellKind.Whole);

    /// <summary>A column of numbers.</summary>
    public static ExportColumn Number(string name) => new(name, CellKind.Number);

    /// <summary>A column of yes and no.</summary>
    public static ExportColumn Flag(string name) => new(name, CellKind.Flag);

    /// <summary>A column of instants.</summary>
    public static ExportColumn Instant(string name) => new(name, CellKind.Instant);
}

using System.IO.Compression;
using System.Xml.Linq;
using Bench.Cli;
using Bench.Cli.Exporting;

namespace Bench.Tests.Cli.Exporting;

public sealed class SheetRowsTests
{
    // ECMA-376 part 1, namespace of SpreadsheetML.
    private static readonly XNamespace Main = "http://schemas.openxmlformats.org/spreadsheetml/2006/main";

    /// <summary>ECMA-376 part 1, 18.3.1.40: a formula is an element f; text is t="str" or inlineStr, a number has no t or n.</summary>
    [Fact]
    public void Write_TextASpreadsheetWouldRun_IsTextAndNoFormula()
    {
        XElement[] cells = Cells([ExportColumn.Text("a"), ExportColumn.Number("b")], ["=1+1", -1.5], ["@x", null]);
        Assert.Empty(cells.SelectMany(c => c.Elements(Main + "f")));
        Assert.Contains(cells, c => c.Value == "=1+1" && (string?)c.Attribute("t") is "str" or "inlineStr" or "s");
        Assert.Contains(cells, c => c.Value == "-1.5" && (string?)c.Attribute("t") is null or "n");
    }

    [Fact]
    public void Write_CharactersThatXmlLacks_AreReplaced()
    {
        Assert.Contains(Cells([ExportColumn.Text("a")], ["x\u0001<y>&\"€"]), c => c.Value == "x\uFFFD<y>&\"€");
    }

    [Fact]
    public void Write_NoRows_StillHasTheHeader()
    {
        Assert.Equal(["a", "b"], Cells([ExportColumn.Text("a"), ExportColumn.Whole("b")]).Select(c => c.Value));
    }

    [Fact]
    public void Write_MoreRowsThanASheetHolds_IsRefused()
    {
        object?[] row = [1];
        ExportTable table = new([ExportColumn.Whole("a")], Enumerable.Repeat(row, SheetRows.MostRows));
        CliException e = Assert.Throws<CliException>(() => SheetRows.Write(table, "moves", Stream.Null));
        Assert.Contains("1048575 rows", e.Message, StringComparison.Ordinal);
    }

    private static XElement[] Cells(ExportColumn[] columns, params object?[][] rows)
    {
        using MemoryStream stream = new();
        SheetRows.Write(new ExportTable(columns, rows), "runs", stream);
        using ZipArchive archive = new(new MemoryStream(stream.ToArray()));
        using Stream sheet = archive.Entries.Single(e => e.FullName.Contains("worksheets/sheet", StringComparison.Ordinal)).Open();
        return [.. XDocument.Load(sheet).Descendants(Main + "c")];
    }
}

using Bench.Cli.Exporting;

namespace Bench.Tests.Cli.Exporting;

public sealed class CsvTextTests
{
    /// <summary>RFC 4180, section 2, rules 1, 3 and 6 to 7: CRLF, header, quotes round quotes, commas and line breaks, quotes doubled.</summary>
    [Fact]
    public void Write_TextWithQuotesCommasAndLineBreaks_IsQuotedAsTheStandardSays()
    {
        Assert.Equal("a,b\r\n\"x,y\",\"b \"\"c\"\"\"\r\n\"one\r\ntwo\", space \r\n", Csv(["a", "b"], ["x,y", "b \"c\""], ["one\r\ntwo", " space "]));
    }

    [Theory]
    [InlineData("=1+1", "'=1+1")]
    [InlineData("+1", "'+1")]
    [InlineData("-1", "'-1")]
    [InlineData("@x", "'@x")]
    [InlineData("\tx", "'\tx")]
    [InlineData("\rx", "\"'\rx\"")]
    [InlineData("=\"a\"", "\"'=\"\"a\"\"\"")]
    [InlineData("a=1", "a=1")]
    [InlineData("", "")]
    public void Write_TextASpreadsheetWouldRun_GetsAnApostrophe(string text, string field)
    {
        Assert.Equal($"a\r\n{field}\r\n", Csv(["a"], [text]));
    }

    [Fact]
    public void Write_NumbersAndNull_StayNumbersAndEmpty()
    {
        Assert.Equal("a,b,c,d\r\n-1.5,-3,true,\r\n", Csv(["a", "b", "c", "d"], [-1.5, -3, true, null]));
    }

    [Fact]
    public void Write_AnInstant_IsUtcAfterRfc3339()
    {
        Assert.Equal("a\r\n2026-06-30T08:00:00.2500000Z\r\n", Csv(["a"], [new DateTimeOffset(2026, 6, 30, 10, 0, 0, 250, TimeSpan.FromHours(2))]));
    }

    private static string Csv(string[] columns, params object?[][] rows)
    {
        using StringWriter writer = new();
        CsvText.Write(new ExportTable([.. columns.Select(ExportColumn.Text)], rows), writer);
        return writer.ToString();
    }
}

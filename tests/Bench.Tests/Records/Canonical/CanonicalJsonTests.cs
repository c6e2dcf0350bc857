using System.Text;
using System.Text.Json;
using Bench.Model.Runs;
using Bench.Model.Serialization;
using Bench.Records.Canonical;

namespace Bench.Tests.Records.Canonical;

public class CanonicalJsonTests
{
    // RFC 8785 section 3.2.2: the example object, and section 3.2.4: the UTF-8 bytes it must give.
    [Fact]
    public void Write_ExampleOfTheStandard_GivesItsBytes()
    {
        const string input =
            """
            {
              "numbers": [333333333.33333329, 1E30, 4.50, 2e-3, 0.000000000000000000000000001],
              "string": "\u20ac$\u000F\u000aA'\u0042\u0022\u005c\\\"\/",
              "literals": [null, true, false]
            }
            """;
        const string expected =
            "7b 22 6c 69 74 65 72 61 6c 73 22 3a 5b 6e 75 6c 6c 2c 74 72 75 65 2c 66 61 6c 73 65 5d 2c 22 6e 75 6d 62 65 72 73 22 3a "
            + "5b 33 33 33 33 33 33 33 33 33 2e 33 33 33 33 33 33 33 2c 31 65 2b 33 30 2c 34 2e 35 2c 30 2e 30 30 32 2c 31 65 2d 32 37 5d "
            + "2c 22 73 74 72 69 6e 67 22 3a 22 e2 82 ac 24 5c 75 30 30 30 66 5c 6e 41 27 42 5c 22 5c 5c 5c 5c 5c 22 2f 22 7d";
        Assert.Equal(expected, string.Join(' ', Encoding.UTF8.GetBytes(Canonical(input)).Select(b => b.ToString("x2", null))));
    }

    // RFC 8785 section 3.2.3: the property sorting example; order is by UTF-16 code units.
    [Fact]
    public void Write_KeysOfTheStandardsSortingExample_AreInItsOrder()
    {
        const string input =
            """
            {"\u20ac": "Euro Sign", "\r": "Carriage Return", "\ufb33": "Hebrew Letter Dalet With Dagesh", "1": "One",
             "\ud83d\ude00": "Emoji: Grinning Face", "\u0080": "Control", "\u00f6": "Latin Small Letter O With Diaeresis"}
            """;
        using JsonDocument document = JsonDocument.Parse(Canonical(input));
        Assert.Equal(
            ["Carriage Return", "One", "Control", "Latin Small Letter O With Diaeresis", "Euro Sign", "Emoji: Grinning Face", "Hebrew Letter Dalet With Dagesh"],
            document.RootElement.EnumerateObject().Select(p => p.Value.GetString()));
    }

    [Fact]
    public void Write_KeyTwice_IsRefused() =>
        Assert.Contains("'a' appears twice", Assert.Throws<FormatException>(() => Canonical("""{"a":1,"a":2}""")).Message, StringComparison.Ordinal);

    [Fact]
    public void Write_RecordReadBack_GivesTheSameText()
    {
        string once = CanonicalJson.Write(SampleRuns.Record(SampleRuns.Start(), SampleRuns.Trace(10)));
        RunRecord back = JsonSerializer.Deserialize<RunRecord>(once, BenchJson.Compact)!;
        Assert.Equal(once, CanonicalJson.Write(back));
    }

    [Fact]
    public void Write_NumberNotFinite_IsRefused() =>
        Assert.Throws<ArgumentException>(() => CanonicalJson.Write(new RunEvent(double.NaN, RunEventKind.Note, "")));

    private static string Canonical(string json)
    {
        using JsonDocument document = JsonDocument.Parse(json);
        return CanonicalJson.Write(document.RootElement);
    }
}

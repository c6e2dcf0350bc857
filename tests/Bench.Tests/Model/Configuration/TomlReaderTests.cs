using System.Text.Json.Nodes;
using Bench.Model.Configuration;

namespace Bench.Tests.Model.Configuration;

public class TomlReaderTests
{
    public static TheoryData<string> Files => [.. RepositoryFiles.In("profiles", ".toml"), .. RepositoryFiles.In("fixtures/benches", ".toml")];

    // The library's own model is a second way from the same text to values.
    [Theory]
    [MemberData(nameof(Files))]
    public void Read_EveryFile_AgreesWithTheLibrarysModel(string path)
    {
        string text = RepositoryFiles.Text(path);

        Assert.Equal(TomlAsJson.Of(text).ToJsonString(), AsJson(TomlReader.Read(text, path))!.ToJsonString());
    }

    [Fact]
    public void Read_TablesAndDottedKeys_KnowTheirLines()
    {
        TomlTable root = TomlReader.Read("a.b = 1\n[c.d]\ne = { x = 1,\n  y.z = 2 }\n[[f]]\n[[f]]\n[f.g]\nh = [1,\n2]\n", "a.toml");

        Assert.Equal(1, Assert.IsType<TomlTable>(root.Entries["a"]).Entries["b"].Line);
        TomlTable d = Assert.IsType<TomlTable>(Assert.IsType<TomlTable>(root.Entries["c"]).Entries["d"]);
        TomlTable e = Assert.IsType<TomlTable>(d.Entries["e"]);
        Assert.Equal((2, 3, 4), (d.Line, e.Line, e.Entries["y"].Line));
        TomlTable second = Assert.IsType<TomlTable>(Assert.IsType<TomlList>(root.Entries["f"]).Items[1]);
        TomlTable g = Assert.IsType<TomlTable>(second.Entries["g"]);
        Assert.Equal((6, 7), (second.Line, g.Line));
        Assert.Equal([8, 9], Assert.IsType<TomlList>(g.Entries["h"]).Items.Select(item => item.Line));
    }

    [Fact]
    public void Read_NotToml_SaysEveryPlace() =>
        Assert.Equal(
            [
                "a.toml:1: file: found text that is not TOML; Unexpected token end-of-line found while expecting a value",
                "a.toml:3: file: found text that is not TOML; Unexpected token found `4` (token: `integer`) while expecting token `newline`",
            ],
            Refusal.Messages(() => TomlReader.Read("x =\n[t]\ny = 3 4\n", "a.toml")));

    [Theory]
    [InlineData("a = 1\na = 2", 2)]
    [InlineData("[t]\n[t]", 2)]
    [InlineData("a = 1\n[a]", 2)]
    [InlineData("a = 1\n[a.b]", 2)]
    [InlineData("a = { x = 1 }\n[a.y]\nz = 1", 2)]
    [InlineData("a = 1\na.b = 2", 2)]
    [InlineData("[a]\n[[a]]", 2)]
    [InlineData("[[a]]\n[a]", 2)]
    [InlineData("a = { x = 1, x = 2 }", 1)]
    public void Read_NameUsedBefore_IsRefusedWhereItComesAgain(string text, int line)
    {
        ConfigurationException e = Assert.Throws<ConfigurationException>(() => TomlReader.Read(text, "a.toml"));

        Assert.Equal(line, Assert.Single(e.Errors).Line);
    }

    [Theory]
    [InlineData("[")]
    [InlineData("{a=")]
    public void Read_NestedTooDeep_IsOneError(string opening)
    {
        string text = "a = " + string.Concat(Enumerable.Repeat(opening, 100_000));

        Assert.StartsWith("a.toml: file: found text that is not TOML; ", Assert.Single(Refusal.Messages(() => TomlReader.Read(text, "a.toml"))), StringComparison.Ordinal);
    }

    [Theory]
    [InlineData(@"\ud800")]
    [InlineData(@"\U0000DfFf")]
    [InlineData(@"\U00110000")]
    [InlineData(@"\Uffffffff")]
    public void Read_EscapeOfNoCharacter_IsRefusedWithItsLine(string escape) =>
        Assert.StartsWith(
            "a.toml:2: file: found text that is not TOML; ",
            Refusal.Messages(() => TomlReader.Read($"a = 1\nb = \"{escape}\"\n", "a.toml"))[0],
            StringComparison.Ordinal);

    private static JsonNode? AsJson(TomlNode node) => node switch
    {
        TomlTable table => new JsonObject(table.Entries.Select(entry => KeyValuePair.Create(entry.Key, AsJson(entry.Value)))),
        TomlList list => new JsonArray([.. list.Items.Select(AsJson)]),
        TomlScalar { Value: string text } => JsonValue.Create(text),
        TomlScalar { Value: long whole } => JsonValue.Create(whole),
        TomlScalar { Value: double number } => JsonValue.Create(number),
        TomlScalar { Value: bool flag } => JsonValue.Create(flag),
        TomlScalar { Value: DateOnly date } => JsonValue.Create(date.ToString("yyyy-MM-dd", System.Globalization.CultureInfo.InvariantCulture)),
        _ => throw new InvalidOperationException("not in these files"),
    };
}

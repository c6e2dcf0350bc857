using System.Text;
using System.Text.Json.Nodes;
using Bench.Model.BenchFiles;
using Bench.Model.Features;
using Bench.Model.Profiles;
using Bench.Model.Returns;
using Json.Schema;

namespace Bench.Tests.Model.Configuration;

/// <summary>What the documentation shows is what the program reads.</summary>
public class DocumentationTests
{
    [Fact]
    public void UnitsFile_Example_IsReadAndPassesItsSchema()
    {
        string text = Example("docs/units-file.md");
        Assert.Equal(2, UnitListReader.Read(Encoding.UTF8.GetBytes(text), "example", ["position-1", "position-2"]).Count);
        JsonSchema schema = JsonSchema.FromText(RepositoryFiles.Text("profiles/units.schema.json"));
        Assert.True(SchemaTests.Passes(schema, text));
        Assert.False(SchemaTests.Passes(schema, text.Replace("symptom = \"constant\"", "symptom = \"sometimes\"", StringComparison.Ordinal)));
        Assert.False(SchemaTests.Passes(schema, text.Replace("return_number", "return-number", StringComparison.Ordinal)));
        Assert.True(SchemaTests.Passes(schema, "schema = 1\n[[unit]]\nposition = \"position-1\"\nreturn = \"R-118\"\n"));
        Assert.False(SchemaTests.Passes(schema, "schema = 1\n[[unit]]\nposition = \"position-1\"\nreturn = \"R-118\"\nserial = \"ND4-1\"\n"));
    }

    [Fact]
    public void BenchFileDocument_Example_IsRead() =>
        Assert.Equal("Greenhouse bench", BenchFileReader.Read(Example("docs/bench-file.md"), "example").Name);

    [Fact]
    public void ProfileDocument_Example_IsRead() =>
        Assert.Equal("drip-gate-2", ProfileReader.Read(Example("docs/profile.md"), "example").Family);

    [Fact]
    public void ProfileDocument_Features_AreThoseOfTheCatalog()
    {
        string text = RepositoryFiles.Text("docs/profile.md");
        int start = text.IndexOf("<!-- features -->", StringComparison.Ordinal);
        string table = text[start..text.IndexOf("<!-- /features -->", StringComparison.Ordinal)];

        Assert.Equal(
            FeatureCatalog.All.Select(d => $"| `{d.Name}` | {d.Unit} | {d.Meaning} |"),
            table.Split('\n').Where(line => line.StartsWith("| `", StringComparison.Ordinal)));
    }

    // Every key that a schema allows is explained, so that the reference stays complete.
    [Theory]
    [InlineData("docs/profile.md", "profiles/profile.schema.json")]
    [InlineData("docs/bench-file.md", "profiles/bench.schema.json")]
    public void Document_EveryKeyOfTheSchema_IsThere(string document, string schema)
    {
        string text = RepositoryFiles.Text(document);
        JsonNode root = JsonNode.Parse(RepositoryFiles.Text(schema))!;

        Assert.All(
            root["properties"]!.AsObject().SelectMany(table => Keys(table.Value!).Append(table.Key)).Distinct(),
            key => Assert.Matches($@"[`\[]{key}[`\]]", text));
    }

    [Fact]
    public void LicencesDocument_NamesEveryPackageOfTheLockFiles()
    {
        string text = RepositoryFiles.Text("docs/licences.md");
        IEnumerable<string> locks = Directory.EnumerateFiles(RepositoryFiles.Root, "packages.lock.json", SearchOption.AllDirectories)
            .Where(path => !path.Contains(".artifacts", StringComparison.Ordinal));

        Assert.All(locks.SelectMany(Packages).Distinct(), row => Assert.Contains(row, text, StringComparison.Ordinal));
    }

    private static IEnumerable<string> Packages(string lockFile) =>
        JsonNode.Parse(File.ReadAllText(lockFile))!["dependencies"]!.AsObject()
            .SelectMany(framework => framework.Value!.AsObject())
            .Where(package => package.Value!["type"]!.GetValue<string>() != "Project")
            .Select(package => $"| {package.Key} | {package.Value!["resolved"]} |");

    private static IEnumerable<string> Keys(JsonNode table) =>
        (table["properties"] ?? table["items"]?["properties"])?.AsObject().Select(entry => entry.Key) ?? [];

    private static string Example(string path)
    {
        const string Opening = "```toml\n";
        string text = RepositoryFiles.Text(path);
        int start = text.IndexOf(Opening, StringComparison.Ordinal) + Opening.Length;
        return text[start..text.IndexOf("```", start, StringComparison.Ordinal)];
    }
}

using System.Text.Json;
using System.Text.Json.Nodes;
using Bench.Model.BenchFiles;
using Bench.Model.Configuration;
using Bench.Model.Features;
using Bench.Model.Profiles;
using Bench.Tests.Model.BenchFiles;
using Bench.Tests.Model.Profiles;
using Json.Schema;

namespace Bench.Tests.Model.Configuration;

/// <summary>Schema and reader must agree on shapes and ranges. The validator is JsonSchema.Net, an independent library.</summary>
public class SchemaTests
{
    private static readonly JsonSchema ProfileSchema = JsonSchema.FromText(RepositoryFiles.Text("profiles/profile.schema.json"));
    private static readonly JsonSchema BenchSchema = JsonSchema.FromText(RepositoryFiles.Text("profiles/bench.schema.json"));

    public static TheoryData<string> Profiles => [.. RepositoryFiles.In("profiles", ".toml")];

    public static TheoryData<string> Benches => [.. RepositoryFiles.In("fixtures/benches", ".toml")];

    [Theory]
    [MemberData(nameof(Profiles))]
    public void ProfileSchema_EveryProfile_Passes(string path) => Assert.True(Passes(ProfileSchema, RepositoryFiles.Text(path)));

    [Theory]
    [MemberData(nameof(Benches))]
    public void BenchSchema_EveryBenchFile_PassesAndIsRead(string path)
    {
        string text = RepositoryFiles.Text(path);

        Assert.True(Passes(BenchSchema, text));
        Assert.NotEmpty(BenchFileReader.Read(text, path).Positions);
    }

    [Fact]
    public void Schemas_SmallFiles_Pass()
    {
        Assert.True(Passes(ProfileSchema, SmallProfile.Text));
        Assert.True(Passes(BenchSchema, SmallBench.Text));
    }

    [Theory]
    [InlineData("schema = 1", "schema = 2")]
    [InlineData("title = \"Drip gate\"", "titel = \"Drip gate\"")]
    [InlineData("part_numbers = [\"DG2\"]", "part_numbers = []")]
    [InlineData("ring_counts = 100", "ring_counts = 2")]
    [InlineData("drive = \"reversing\"", "drive = \"both\"")]
    [InlineData("drive = \"reversing\"", "drive = \"commanded\"")]
    [InlineData("drive = \"reversing\"", "drive = \"reversing\"\nlanding_tolerance_counts = 5")]
    [InlineData("feedback = \"ring\"", "feedback = \"switches\"")]
    [InlineData("feedback = \"ring\"", "feedback = \"ring\"\nswitch_width_counts = 10")]
    [InlineData("index_width_counts = 10", "index_count = 25")]
    [InlineData("[[port]]\nname = \"B\"\ncount = 50", "")]
    [InlineData("supply_max_v = 28.8", "supply_max_v = 230")]
    [InlineData("dead_time_ms = 60", "dead_time_ms = 0")]
    [InlineData("dead_time_ms = 60", "dead_time = 60")]
    [InlineData("most_duty = 0.85", "most_duty = 1.1")]
    [InlineData("most_duty = 0.85", "most_duty = 0.85\nwinding_most_celsius = 110")]
    [InlineData("most_duty = 0.85", "most_duty = 0.85\nhousing_thermal_k_per_w = 32\nhousing_time_constant_s = 300")]
    [InlineData("most_duty = 0.85", "most_duty = 0.85\nwinding_thermal_k_per_w = 12\nwinding_time_constant_s = 20\nhousing_thermal_k_per_w = 32\nwinding_most_celsius = 110\nambient_most_celsius = 40")]
    [InlineData("most_duty = 0.85", "most_duty = 0.85\nwinding_thermal_k_per_w = 0\nwinding_time_constant_s = 20\nwinding_most_celsius = 110\nambient_most_celsius = 40")]
    [InlineData("kind = \"port-moves\"", "kind = \"port_moves\"")]
    [InlineData("most_s = 2\n", "most_s = 2\nsettle_ms = 5\n")]
    [InlineData("most_moves = 20", "")]
    [InlineData("revolutions = 2", "revolutions = 0")]
    [InlineData("feature = \"feedback.dropouts\"", "feature = \"feedback.drop_outs\"")]
    [InlineData("upper = 0\n", "")]
    [InlineData("rule = \"simple\"", "rule = \"strict\"")]
    [InlineData("severity = \"hold\"", "severity = \"scrap\"")]
    [InlineData("severity = \"hold\"", "severity = \"hold\"\nremedy = \"exchange-connector\"")]
    [InlineData("remedy = \"exchange-connector\"", "")]
    [InlineData("beta = 0.06", "beta = 0.5")]
    [InlineData("ring_coverage = 0.98", "ring_coverage = 98")]
    [InlineData("order = 1", "order = 0")]
    [InlineData("id = \"none\"", "id = \"nothing\"")]
    [InlineData("expect = \"The feedback drops out\"", "")]
    [InlineData("feedback.dropouts = 0.95", "feedback.dropouts = 1")]
    [InlineData("feedback.dropouts = 0.95", "feedback.drops = 0.95")]
    [InlineData("[economics]", "[economy]")]
    public void ProfileSchema_BrokenFile_FailsHereAndInTheReader(string part, string by)
    {
        string text = Refusal.Break(SmallProfile.Text, part, by);

        Assert.Throws<ConfigurationException>(() => ProfileReader.Read(text, "p.toml"));
        Assert.False(Passes(ProfileSchema, text));
    }

    [Theory]
    [InlineData("supply_current_limit_a = 3.0", "supply_current_limit_a = 0")]
    [InlineData("name = \"net\"", "name = \"The Net\"")]
    [InlineData("kind = \"serial\"", "kind = \"usb\"")]
    [InlineData("protocol = \"modbus-rtu\"", "protocol = \"modbus-tcp\"")]
    [InlineData("port = \"/dev/bench\"", "")]
    [InlineData("baud = 115200", "baud = 11520")]
    [InlineData("baud = 115200", "tcp_port = 502")]
    [InlineData("host = \"192.0.2.10\"", "host = \"192.0.2.10\"\nparity = \"even\"")]
    [InlineData("address = 11", "address = 248")]
    [InlineData("timeout_ms = 41", "timeout_ms = 1")]
    [InlineData("timeout_ms = 41", "timeout_ms = 41\nwatchdog = { holding_register = 0, unit_ms = 10, timeout_ms = 199 }")]
    [InlineData("timeout_ms = 41", "timeout_ms = 41\nwatchdog = { holding_register = 0, unit_ms = 0, timeout_ms = 1000 }")]
    [InlineData("timeout_ms = 41", "timeout_ms = 41\nwatchdog = { unit_ms = 10, timeout_ms = 1000 }")]
    [InlineData("timeout_ms = 41", "timeout_ms = 41\nwatchdog = { coil = 0, unit_ms = 10, timeout_ms = 1000 }")]
    [InlineData("drive = \"reversing\"", "drive = \"single\"")]
    [InlineData("down = { device = \"io\", coil = 1 }", "")]
    [InlineData("coil = 1 }", "input_register = 1 }")]
    [InlineData("coil = 1 }", "coil = 65536 }")]
    [InlineData("{ device = \"feedback\", input_register = 0 }", "{ device = \"feedback\" }")]
    [InlineData("{ device = \"feedback\", input_register = 0 }", "{ device = \"feedback\", input_register = 0, holding_register = 0 }")]
    [InlineData("input_register = 2, bit = 0 }", "input_register = 2 }")]
    [InlineData("input_register = 2, bit = 0 }", "discrete_input = 2, bit = 0 }")]
    [InlineData("scale_a = 0.001", "scale_a = 0")]
    [InlineData("standard_uncertainty_a = 0.004", "standard_uncertainty_a = 0.0")]
    [InlineData("calibrated_on = 2026-03-02", "calibrated_on = 2026-03-02T08:00:00Z")]
    [InlineData("[bench]", "[bench]\n[colour]\n[bench.x]")]
    [InlineData("[position.voltage]", "[position.volts]")]
    public void BenchSchema_BrokenFile_FailsHereAndInTheReader(string part, string by)
    {
        string text = Refusal.Break(SmallBench.Text, part, by);

        Assert.Throws<ConfigurationException>(() => BenchFileReader.Read(text, "b.toml"));
        Assert.False(Passes(BenchSchema, text));
    }

    [Fact]
    public void ProfileSchema_Features_AreThoseOfTheCatalog()
    {
        JsonNode definitions = JsonNode.Parse(RepositoryFiles.Text("profiles/profile.schema.json"))!["$defs"]!;
        string[] names = [.. FeatureCatalog.All.Select(definition => definition.Name)];
        JsonObject shows = definitions["shows"]!["properties"]!.AsObject();

        Assert.Equal(names, definitions["feature"]!["enum"]!.AsArray().Select(name => name!.GetValue<string>()));
        Assert.Equal(names, shows.Select(entry => entry.Key).Where(key => key.Contains('.', StringComparison.Ordinal)));
        Assert.Equal(
            names,
            shows.Where(entry => !entry.Key.Contains('.', StringComparison.Ordinal))
                .SelectMany(group => group.Value!["properties"]!.AsObject().Select(entry => $"{group.Key}.{entry.Key}")));
    }

    /// <summary>Whether the schema of bench files takes a text.</summary>
    internal static bool BenchPasses(string toml) => Passes(BenchSchema, toml);

    internal static bool Passes(JsonSchema schema, string toml) =>
        schema.Evaluate(JsonSerializer.SerializeToElement(TomlAsJson.Of(toml))).IsValid;
}

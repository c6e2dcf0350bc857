using System.Text.Json;
using System.Text.Json.Nodes;
using Bench.Model.Serialization;

namespace Bench.Cli.Output;

/// <summary>A demo run as <c>--json</c> prints it: a run, and whether its disposition is right for its condition.</summary>
internal static class DemoJson
{
    /// <summary>The run with the key <c>right</c> added.</summary>
    public static JsonNode Of(RunJson run, bool right)
    {
        JsonNode node = JsonSerializer.SerializeToNode(run, BenchJson.Indented)!;
        node["right"] = right;
        return node;
    }
}

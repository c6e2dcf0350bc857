using System.Text.Json;
using Bench.SystemTests.Programs;

namespace Bench.SystemTests.Cli;

/// <summary>A data folder with the two healthy runs of the demo.</summary>
public sealed class StoredRuns : IAsyncLifetime
{
    /// <summary>The folder.</summary>
    public TemporaryFolder Folder { get; } = new();

    /// <summary>The diverter's run, as the demo printed it.</summary>
    public JsonElement Run { get; private set; }

    /// <summary>Its id.</summary>
    public string Id => Run.GetProperty("run").GetString()!;

    /// <summary>The selector's run, of which no test says anything later.</summary>
    public JsonElement Untouched { get; private set; }

    /// <summary>Runs a verb on the folder.</summary>
    public Task<Finished> RunAsync(params string[] arguments) => BenchProgram.RunAsync([.. arguments, "--data", Folder.At("data")]);

    public async ValueTask InitializeAsync()
    {
        Finished demo = await RunAsync("demo", "--json", "--only", "healthy");
        Run = demo.Json().EnumerateArray().Single(r => r.GetProperty("family").GetString() == "nutrient-diverter-4");
        Untouched = demo.Json().EnumerateArray().Single(r => r.GetProperty("family").GetString() == "zone-selector-3");
    }

    public ValueTask DisposeAsync()
    {
        Folder.Dispose();
        return ValueTask.CompletedTask;
    }
}

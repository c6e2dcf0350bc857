using System.Text.Json;
using Bench.SystemTests.Programs;

namespace Bench.SystemTests.Reporting;

/// <summary>Evidence packets of the demo, one of each outcome, as <c>bench demo</c> writes them: once for all tests that read them.</summary>
public sealed class DemoPackets : IAsyncLifetime
{
    /// <summary>Name of the collection of tests that read them.</summary>
    public const string Collection = "packets of the demo";

    // Whole runs are computed; on a machine that does something else beside, that takes its time.
    private static readonly TimeSpan Patience = TimeSpan.FromMinutes(5);

    private readonly Dictionary<string, string> _idBySerial = [];

    /// <summary>Serial numbers: reusable, repairable, scrap with a weak ring, held, aborted.</summary>
    public static TheoryData<string> Serials => ["ND4-10417", "ND4-10388", "ZS3-19964", "ND4-10421", "ND4-10420"];

    /// <summary>The folder.</summary>
    public TemporaryFolder Folder { get; } = new();

    /// <summary>The packet of a unit.</summary>
    public string this[string serial] => Directory.GetFiles(Folder.At("data", "packets"), $"{serial}-*.html").Single();

    /// <summary>The PDF of a unit, written now.</summary>
    public async Task<string> PdfAsync(string serial)
    {
        Finished report = await BenchProgram.RunAsync("report", _idBySerial[serial], "--format", "pdf", "--out", Folder.At("paper"), "--data", Folder.At("data"));
        return report.Said(0).Output.Trim();
    }

    /// <summary>What the record says of a unit's run.</summary>
    public async Task<JsonElement> RecordAsync(string serial) =>
        (await BenchProgram.RunAsync("show", _idBySerial[serial], "--json", "--data", Folder.At("data"))).Said(0).Json();

    public async ValueTask InitializeAsync()
    {
        foreach (string condition in (string[])["healthy", "dead-sensors", "contaminated-sensors", "low-bench-supply", "noisy-link"])
        {
            await using RunningProgram demo = BenchProgram.Start("demo", "--json", "--only", condition, "--data", Folder.At("data"));
            foreach (JsonElement run in (await demo.EndAsync(Patience)).Json().EnumerateArray())
            {
                _idBySerial[run.GetProperty("serial").GetString()!] = run.GetProperty("run").GetString()!;
            }
        }
    }

    public ValueTask DisposeAsync()
    {
        Folder.Dispose();
        return ValueTask.CompletedTask;
    }
}

using System.CommandLine;

namespace Bench.Cli.Verbs;

/// <summary>Options that every verb knows.</summary>
internal static class CommonOptions
{
    /// <summary>Data folder.</summary>
    public static Option<string?> Data { get; } = new("--data")
    {
        Description = "Folder for records, traces and logs (default: BENCH_DATA, else your data folder)",
        HelpName = "DIR",
        Recursive = true,
    };

    /// <summary>Print JSON.</summary>
    public static Option<bool> Json { get; } = new("--json")
    {
        Description = "Print one JSON document on standard output",
        Recursive = true,
    };
}

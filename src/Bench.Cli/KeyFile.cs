using Bench.Records.Keys;

namespace Bench.Cli;

/// <summary>Where this bench keeps its key: <c>--key</c>, else <c>BENCH_KEY</c>, else the user's configuration folder; never the data folder.</summary>
internal static class KeyFile
{
    /// <summary>The key to sign with; null when there is none and none was named.</summary>
    /// <exception cref="CliException">One was named that is not there.</exception>
    /// <exception cref="Bench.Records.StoreException">It can't be used.</exception>
    public static BenchKey? Load()
    {
        string? named = Environment.GetEnvironmentVariable(Variable);
        return string.IsNullOrWhiteSpace(named)
            ? Default is { } path ? BenchKey.Load(path) : null
            : BenchKey.Load(named) ?? throw new CliException(ExitCode.BadInput, $"{Variable}: there is no key '{named}'; make it with 'bench key make', or unset {Variable}");
    }

    /// <summary>The key's path.</summary>
    /// <exception cref="CliException">There is none.</exception>
    public static string Resolve(string? option)
    {
        string? named = option ?? Environment.GetEnvironmentVariable(Variable);
        return string.IsNullOrWhiteSpace(named)
            ? Default ?? throw new CliException(ExitCode.BadInput, $"no place for a key: this account has no home; name one with --key FILE or {Variable}")
            : Path.GetFullPath(named);
    }

    private const string Variable = "BENCH_KEY";

    private static string? Default
    {
        get
        {
            string folder = Environment.GetFolderPath(Environment.SpecialFolder.ApplicationData, Environment.SpecialFolderOption.DoNotVerify);
            return folder.Length == 0 ? null : Path.Combine(folder, "bench", "key.pem");
        }
    }
}

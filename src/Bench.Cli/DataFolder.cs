namespace Bench.Cli;

/// <summary>Where this bench keeps its data: <c>--data</c>, else <c>BENCH_DATA</c>, else the user's data folder.</summary>
internal static class DataFolder
{
    /// <summary>The folder as a full path.</summary>
    /// <exception cref="CliException">There is none.</exception>
    public static string Resolve(string? option)
    {
        string? chosen = option ?? Environment.GetEnvironmentVariable("BENCH_DATA");
        if (string.IsNullOrWhiteSpace(chosen))
        {
            string user = Environment.GetFolderPath(Environment.SpecialFolder.LocalApplicationData, Environment.SpecialFolderOption.DoNotVerify);
            if (user.Length == 0)
            {
                throw new CliException(ExitCode.BadInput, "no data folder: this account has no home; name one with --data DIR or BENCH_DATA");
            }

            chosen = Path.Combine(user, "bench");
        }

        return Path.GetFullPath(chosen);
    }
}

using System.Text.Json;
using Bench.SystemTests.Programs;

namespace Bench.SystemTests.Cli;

/// <summary>Signatures as an outsider checks them: with OpenSSL and the SQLite shell, by the recipe of docs/records.md.</summary>
public class SignatureTests
{
    [Fact]
    public async Task Seal_WithAKey_IsSignedAsOpenSslChecks()
    {
        Assert.SkipUnless(File.Exists("/usr/bin/openssl") && File.Exists("/usr/bin/sqlite3"), "openssl and sqlite3 are not both installed");
        using TemporaryFolder folder = new();
        string key = folder.At("keys", "key.pem");
        JsonElement made = (await RunAsync(folder, "key", "make", "--json")).Said(0).Json();
        (await RunAsync(folder, "key", "make")).OnlySaid(2, "there is a key");
        (await RunAsync(folder, "demo", "--json", "--only", "healthy")).Said(0);
        (await RunAsync(folder, "verify", "--signed-by", made.GetProperty("fingerprint").GetString()!)).Said(0);
        (await RunAsync(folder, "verify", "--signed-by", new string('0', 64))).Said(3);
        (await RunAsync(folder, "verify", "--signed-by", "me")).OnlySaid(2, "64 hexadecimal digits");

        string check = $"""
            set -e
            sqlite3 {folder.At("data", "bench.db")} "SELECT public_key FROM bench_key" > public.pem
            sqlite3 {folder.At("data", "bench.db")} "SELECT signature FROM signature JOIN run USING (hash) WHERE sequence = 1" | openssl base64 -d -A > signature.der
            sqlite3 {folder.At("data", "bench.db")} "SELECT hash FROM run WHERE sequence = 1" | tr -d '\n' > hash.txt
            openssl dgst -sha256 -verify public.pem -signature signature.der hash.txt
            openssl pkey -in {key} -pubout -outform DER | sha256sum
            """;
        await using RunningProgram shell = RunningProgram.Start("/bin/sh", ["-c", check], folder.Path);
        Finished checkedBy = (await shell.EndAsync()).Said(0);
        Assert.Contains("Verified OK", checkedBy.Output, StringComparison.Ordinal);
        Assert.Contains(made.GetProperty("fingerprint").GetString()!, checkedBy.Output, StringComparison.Ordinal);
    }

    [Fact]
    public async Task Run_KeyNamedAndNotThere_MakesNoEntry()
    {
        using TemporaryFolder folder = new();
        (await RunAsync(folder, "demo", "--only", "healthy")).OnlySaid(2, "BENCH_KEY: there is no key");
    }

    private static async Task<Finished> RunAsync(TemporaryFolder folder, params string[] arguments)
    {
        await using RunningProgram running = RunningProgram.Start(
            BenchProgram.Path, [.. arguments, "--data", folder.At("data")],
            environment: new Dictionary<string, string> { ["NO_COLOR"] = "1", ["BENCH_KEY"] = folder.At("keys", "key.pem") });
        return await running.EndAsync();
    }
}

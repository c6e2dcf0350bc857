using System.CommandLine;
using Bench.Cli.Output;
using Bench.Records.Keys;

namespace Bench.Cli.Verbs;

/// <summary><c>bench key</c>: the key that this bench signs records with.</summary>
internal static class KeyVerb
{
    private static readonly Option<string?> KeyOption = new("--key")
    {
        Description = "The private key's file (default: BENCH_KEY, else bench/key.pem in your configuration folder)",
        HelpName = "FILE",
    };

    /// <summary>Gives the verb its options and action.</summary>
    public static void Fill(Command command)
    {
        Command make = new("make", "Make a key; from then on every sealed run and entry is signed with it") { KeyOption };
        make.SetGuardedAction(MakeAsync);
        Command show = new("show", "Print the key's fingerprint and its public half") { KeyOption };
        show.SetGuardedAction(ShowAsync);
        command.Add(make);
        command.Add(show);
    }

    private static Task<int> MakeAsync(ParseResult options)
    {
        string path = KeyFile.Resolve(options.GetValue(KeyOption));
        using BenchKey key = BenchKey.Make(path);
        Print(key, path, options);
        Terminal.Say("Keep the file secret and a copy of it in a safe place; it is in no backup. Write the fingerprint down elsewhere: 'bench verify --signed-by' takes it.");
        return Task.FromResult(ExitCode.Done);
    }

    private static Task<int> ShowAsync(ParseResult options)
    {
        string path = KeyFile.Resolve(options.GetValue(KeyOption));
        using BenchKey key = BenchKey.Load(path) ?? throw new CliException(ExitCode.BadInput, $"there is no key '{path}'; 'bench key make' makes one");
        Print(key, path, options);
        return Task.FromResult(ExitCode.Done);
    }

    private static void Print(BenchKey key, string path, ParseResult options)
    {
        if (options.GetValue(CommonOptions.Json))
        {
            Terminal.Json(new { File = path, key.Fingerprint, PublicKey = key.PublicPem });
        }
        else
        {
            Terminal.Result($"{key.Fingerprint}\n{key.PublicPem}");
            Terminal.Say($"private key: {path}");
        }
    }
}

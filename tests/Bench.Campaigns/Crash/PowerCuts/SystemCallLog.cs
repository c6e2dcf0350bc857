using System.Globalization;
using System.Text;
using System.Text.RegularExpressions;

namespace Bench.Campaigns.Crash.PowerCuts;

/// <summary>Reads what strace(1) wrote (<c>-f -y -xx</c>, strings whole) as operations on files.</summary>
internal static partial class SystemCallLog
{
    /// <summary>The calls that are to be traced.</summary>
    public const string Calls = "openat,creat,write,pwrite64,writev,pwritev,ftruncate,truncate,fsync,fdatasync,rename,renameat,renameat2,link,linkat,unlink,unlinkat,mkdir,mkdirat";

    /// <summary>The operations under a folder, and what was said on standard output.</summary>
    /// <exception cref="NotSupportedException">A file was changed by a call that this can't follow.</exception>
    public static IReadOnlyList<FileOperation> Read(string file, string folder)
    {
        List<FileOperation> operations = [];
        Dictionary<string, (string Text, int At)> pending = [];
        int line = 0;
        foreach (string text in File.ReadLines(file))
        {
            line++;
            Match split = ProcessAndCall().Match(text);
            (string process, string call) = (split.Groups[1].Value, split.Groups[2].Value);
            int entered = line;
            if (call.EndsWith("<unfinished ...>", StringComparison.Ordinal))
            {
                pending[process] = (call[..^"<unfinished ...>".Length].TrimEnd(), line);
                continue;
            }

            if (Resumed().Match(call) is { Success: true } resumed && pending.Remove(process, out (string Text, int At) begun))
            {
                call = begun.Text + resumed.Groups[1].Value;
                entered = begun.At;
            }

            if (Of(call, entered, line) is { } operation && (operation.Kind == FileOperationKind.Say || operation.Path.StartsWith(folder, StringComparison.Ordinal)))
            {
                operations.Add(operation);
            }
        }

        return [.. operations.OrderBy(o => o.Entered)];
    }

    private static FileOperation? Of(string call, int entered, int done)
    {
        Match match = Call().Match(call);
        if (!match.Success || match.Groups[3].Value.StartsWith('-'))
        {
            return null; // a failed call, a signal, an end
        }

        string arguments = match.Groups[2].Value;
        string[] texts = [.. Quoted().Matches(arguments).Select(m => Encoding.UTF8.GetString(Bytes(m.Groups[1].Value)))];
        string path = Descriptor().Match(arguments) is { Success: true } descriptor ? Encoding.UTF8.GetString(Bytes(descriptor.Groups[2].Value)) : "";
        return match.Groups[1].Value switch
        {
            "openat" => arguments.Contains("O_CREAT", StringComparison.Ordinal) ? Plain(FileOperationKind.Open, texts[0]) : null,
            "mkdir" or "mkdirat" => Plain(FileOperationKind.MakeFolder, texts[0]),
            "fsync" or "fdatasync" => Plain(FileOperationKind.Flush, path),
            "unlink" or "unlinkat" => Plain(FileOperationKind.Delete, texts[0]),
            "rename" or "renameat" or "renameat2" => Plain(FileOperationKind.Rename, texts[0]) with { To = texts[1] },
            "ftruncate" => Plain(FileOperationKind.Truncate, path) with { At = LastNumber(arguments) },
            "pwrite64" => Plain(FileOperationKind.Write, path) with { Bytes = Written(arguments), At = LastNumber(arguments) },
            "write" when arguments.StartsWith("1<", StringComparison.Ordinal) || path.StartsWith("pipe:", StringComparison.Ordinal) =>
                Plain(FileOperationKind.Say, Encoding.UTF8.GetString(Written(arguments)).TrimEnd('\n')),
            var name => path.StartsWith('/') && !path.StartsWith("/dev", StringComparison.Ordinal) && !path.StartsWith("/proc", StringComparison.Ordinal)
                && !path.StartsWith("/memfd", StringComparison.Ordinal)
                ? Plain(FileOperationKind.Say, $"unknown {name} of {path}")
                : null,
        };

        FileOperation Plain(FileOperationKind kind, string on) => new(kind, on, "", 0, [], entered, done);
    }

    private static byte[] Written(string arguments) => Bytes(Quoted().Match(arguments[arguments.IndexOf('>', StringComparison.Ordinal)..]).Groups[1].Value);

    private static long LastNumber(string arguments) => long.Parse(arguments[(arguments.LastIndexOf(' ') + 1)..], CultureInfo.InvariantCulture);

    /// <summary>The bytes of a text in which they are escaped as hexadecimal, or plain where they are not.</summary>
    private static byte[] Bytes(string text) => text.StartsWith("\\x", StringComparison.Ordinal)
        ? Convert.FromHexString(text.Replace("\\x", "", StringComparison.Ordinal))
        : Encoding.UTF8.GetBytes(text);

    [GeneratedRegex(@"^(\d+)\s+(.*)$")]
    private static partial Regex ProcessAndCall();

    [GeneratedRegex(@"^<\.\.\. \w+ resumed>(.*)$")]
    private static partial Regex Resumed();

    [GeneratedRegex(@"^(\w+)\((.*)\)\s+= (\S+)")]
    private static partial Regex Call();

    [GeneratedRegex("\"([^\"]*)\"")]
    private static partial Regex Quoted();

    [GeneratedRegex(@"^(\d+)<([^>]*)>")]
    private static partial Regex Descriptor();
}

using Bench.Model.Serialization;

namespace Bench.Cli.Running;

/// <summary>Where <c>--out</c> puts what is reported: a file when its name ends as one, else a folder.</summary>
/// <param name="Folder">The folder.</param>
/// <param name="Name">Name of the file; null for one of the program's choice.</param>
internal sealed record PacketPlace(string Folder, string? Name)
{
    private const string Page = ".html";
    private const string Paper = ".pdf";

    /// <summary>The place that was asked for.</summary>
    /// <param name="given">What <c>--out</c> says.</param>
    public static PacketPlace Of(string given)
    {
        string full = Path.GetFullPath(given);
        return Directory.Exists(full) || Ending(full) is not (Page or Paper)
            ? new PacketPlace(full, null)
            : new PacketPlace(Path.GetDirectoryName(full)!, Path.GetFileName(full));
    }

    /// <summary>The format asked for, or that the file's name asks for; a page where neither does.</summary>
    /// <param name="asked">What <c>--format</c> says.</param>
    /// <exception cref="CliException">The two do not go together.</exception>
    public PacketFormat Format(PacketFormat? asked)
    {
        if (Name is null)
        {
            return asked ?? PacketFormat.Html;
        }

        bool page = Ending(Name) == Page;
        PacketFormat format = asked ?? (page ? PacketFormat.Html : PacketFormat.Pdf);
        return page == (format == PacketFormat.Html)
            ? format
            : throw new CliException(ExitCode.BadInput, $"--out {Name}: --format {BenchJson.Word(format)} is written to a file that ends in {(page ? Paper : Page)}; change one of the two");
    }

    /// <summary>Full path of the file.</summary>
    /// <param name="usual">Its name where none was given.</param>
    /// <param name="overwrite">Whether a file that was named and is there may be replaced.</param>
    /// <exception cref="CliException">It is there already.</exception>
    public string File(string usual, bool overwrite)
    {
        string path = Path.Combine(Folder, Name ?? usual);
        return Name is null || overwrite || !System.IO.File.Exists(path)
            ? path
            : throw new CliException(ExitCode.BadInput, $"{path}: is there already; choose another name with --out, or replace it with --force");
    }

    private static string Ending(string path) => Path.GetExtension(path).ToLowerInvariant();
}

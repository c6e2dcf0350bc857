using System.ComponentModel;
using System.Diagnostics;
using System.Globalization;
using System.Text;

namespace Bench.Campaigns.Checks;

/// <summary>Another program that computes the same things: asked once, with everything there is to ask.</summary>
/// <param name="Programs">Where it may be, the first that starts is taken.</param>
/// <param name="Missing">What to say when none does.</param>
/// <param name="Preamble">What its script begins with; the first line it prints is its version.</param>
/// <param name="Line">Makes of an expression a line of script that prints one number at full precision, or nan.</param>
internal sealed record Oracle(IReadOnlyList<string> Programs, string Missing, string Preamble, Func<string, string> Line)
{
    /// <summary>R.</summary>
    public static Oracle R { get; } = new(
        ["Rscript"],
        "Rscript is not installed (Debian: r-base-core)",
        "options(warn = -1)\ncat(R.version.string, \"\\n\")\n",
        e => $"tryCatch(cat(sprintf(\"%.17g\\n\", as.numeric({e}))), error = function(e) cat(\"nan\\n\"))");

    /// <summary>SciPy. Debian's Python first: another one on the path rarely has it.</summary>
    public static Oracle SciPy { get; } = new(
        ["/usr/bin/python3", "python3"],
        "no python3 with scipy is installed (Debian: python3-scipy)",
        File.ReadAllText(CheckData.PathOf(Path.Combine("fixtures", "checkdata", "oracle.py"))),
        e => $"tell(lambda: {e})");

    /// <summary>Its version and answers, or why there are none.</summary>
    public (string? Version, IReadOnlyList<double> Answers, string? Because) Ask(IReadOnlyList<string> expressions)
    {
        string file = Path.Combine(Path.GetTempPath(), $"bench-oracle-{Guid.NewGuid():N}");
        File.WriteAllText(file, Preamble + string.Join('\n', expressions.Select(Line)) + "\n", new UTF8Encoding(false));
        try
        {
            foreach (string program in Programs)
            {
                if (Output(program, file) is { } lines && lines.Length == expressions.Count + 1)
                {
                    return (lines[0].Trim(), [.. lines.Skip(1).Select(Answer)], null);
                }
            }

            return (null, [], Missing);
        }
        finally
        {
            File.Delete(file);
        }
    }

    private static double Answer(string line) =>
        double.TryParse(line, NumberStyles.Float, CultureInfo.InvariantCulture, out double value) ? value : double.NaN;

    private static string[]? Output(string program, string file)
    {
        ProcessStartInfo start = new(program, [file]) { RedirectStandardOutput = true, RedirectStandardError = true };
        try
        {
            using Process process = Process.Start(start)!;
            process.ErrorDataReceived += (_, _) => { };
            process.BeginErrorReadLine();
            string output = process.StandardOutput.ReadToEnd();
            process.WaitForExit();
            return process.ExitCode == 0 ? output.Split('\n', StringSplitOptions.RemoveEmptyEntries) : null;
        }
        catch (Win32Exception)
        {
            return null;
        }
    }
}

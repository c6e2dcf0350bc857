using System.Text.Json;
using Bench.Model.Serialization;

namespace Bench.Cli.Output;

/// <summary>Standard output is the result, standard error the progress.</summary>
internal static class Terminal
{
    /// <summary>Prints a result as one JSON document.</summary>
    public static void Json<T>(T value) => Console.Out.WriteLine(JsonSerializer.Serialize(value, BenchJson.Indented));

    /// <summary>Prints a result.</summary>
    public static void Result(string text) => Console.Out.WriteLine(text);

    /// <summary>Says something beside the result.</summary>
    public static void Say(string text) => Console.Error.WriteLine(text);

    /// <summary>Columns for results: those of the terminal, or 80 where there is none.</summary>
    public static int Width => Console.IsOutputRedirected ? 80 : Math.Clamp(Console.WindowWidth, 40, 120);

    /// <summary>Whether a person is there to see something drawn.</summary>
    public static bool CanDraw =>
        !Console.IsErrorRedirected
        && Environment.GetEnvironmentVariable("TERM") is not "dumb"
        && !OperatingSystem.IsBrowser();
}

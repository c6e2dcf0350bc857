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

    /// <summary>Says marked items beside the result, broken to the terminal's width; whole lines where no person looks.</summary>
    /// <param name="mark">What stands before each.</param>
    /// <param name="items">The items.</param>
    public static void Say(string mark, IEnumerable<string> items)
    {
        foreach (string item in items)
        {
            Say(Wrapping.Of(mark, item, MessageWidth));
        }
    }

    /// <summary>Columns for messages; null where no person looks. A terminal that does not say has 80.</summary>
    public static int? MessageWidth => Console.IsErrorRedirected ? null : Console.WindowWidth is > 0 and var columns ? Math.Max(20, columns - 1) : 80;

    /// <summary>Columns for results: those of the terminal, or 80 where there is none.</summary>
    public static int Width => Console.IsOutputRedirected ? 80 : Math.Clamp(Console.WindowWidth, 40, 120);

    /// <summary>Whether a person is there to see something drawn.</summary>
    public static bool CanDraw =>
        !Console.IsErrorRedirected
        && Environment.GetEnvironmentVariable("TERM") is not "dumb"
        && !OperatingSystem.IsBrowser();
}

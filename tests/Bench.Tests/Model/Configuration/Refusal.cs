using Bench.Model.Configuration;

namespace Bench.Tests.Model.Configuration;

/// <summary>What a reader says of a broken file.</summary>
internal static class Refusal
{
    /// <summary>The text with one part replaced; the part must stand in it once.</summary>
    public static string Break(string text, string part, string by)
    {
        int at = text.IndexOf(part, StringComparison.Ordinal);
        Assert.True(at >= 0 && text.IndexOf(part, at + 1, StringComparison.Ordinal) < 0, $"'{part}' must stand there once");
        return string.Concat(text.AsSpan(0, at), by, text.AsSpan(at + part.Length));
    }

    /// <summary>The messages with which reading ends.</summary>
    public static string[] Messages(Action read) =>
        [.. Assert.Throws<ConfigurationException>(read).Errors.Select(error => error.ToString())];
}

using System.Text.Json;

namespace Bench.SystemTests.Programs;

/// <summary>What a program that has ended left: exit code, standard output, standard error.</summary>
public sealed record Finished(int Code, string Output, string Error)
{
    /// <summary>Standard output as the one JSON document that it must be.</summary>
    public JsonElement Json()
    {
        using JsonDocument document = JsonDocument.Parse(Output);
        return document.RootElement.Clone();
    }

    /// <summary>Holds that it ended with a code and said all of some words on standard error, and no stack trace.</summary>
    public Finished Said(int code, params string[] words)
    {
        Assert.True(code == Code, $"exit code {Code} instead of {code}: {this}");
        foreach (string word in words)
        {
            Assert.Contains(word, Error, StringComparison.Ordinal);
        }

        Assert.DoesNotContain("   at ", Error, StringComparison.Ordinal);
        Assert.DoesNotContain("Unhandled", Error, StringComparison.Ordinal);
        return this;
    }

    /// <summary>As <see cref="Said"/>, and that standard output holds nothing.</summary>
    public Finished OnlySaid(int code, params string[] words)
    {
        Assert.Equal("", Output);
        return Said(code, words);
    }
}

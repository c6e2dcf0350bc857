using Bench.Model.Judging;

namespace Bench.Analysis.Judging;

/// <summary>A ranked check in plain sentences: what to do, what it shows, what it tells from what, and how long it takes.</summary>
public static class CheckSentence
{
    /// <summary>The sentences.</summary>
    public static string Of(RankedCheck check)
    {
        ArgumentNullException.ThrowIfNull(check);
        string expect = check.Mode.Expect is string e ? $" If it is {Inline(check.Mode.Name)}: {e}" : "";
        return $"{check.Mode.NextCheck}{expect} It {Worth(check)}.";
    }

    /// <summary>What it is worth: "tells valve seized from motor or gear seized in about 5 min".</summary>
    public static string Worth(RankedCheck check)
    {
        ArgumentNullException.ThrowIfNull(check);
        string rival = check.Rival is Cause other ? Inline(other.Name) : "the rest";
        string time = check.Minutes is double minutes ? FormattableString.Invariant($" in about {minutes:0.#} min") : "";
        return $"tells {Inline(check.Mode.Name)} from {rival}{time}";
    }

    private static string Inline(string sentence) =>
        sentence.Length > 1 && char.IsUpper(sentence[0]) && char.IsLower(sentence[1])
            ? char.ToLowerInvariant(sentence[0]) + sentence[1..]
            : sentence;
}

namespace Bench.Cli.Checking;

/// <summary>A grade with its reasons.</summary>
/// <param name="Grade">The worst of what was found.</param>
/// <param name="Reasons">What speaks against good, with what to do, in plain words; empty for good.</param>
internal sealed record Graded(Grade Grade, IReadOnlyList<string> Reasons)
{
    /// <summary>The grade that follows from single remarks.</summary>
    public static Graded From(IEnumerable<(Grade Grade, string Reason)> remarks)
    {
        (Grade Grade, string Reason)[] worstFirst = [.. remarks.OrderByDescending(r => r.Grade)];
        return new Graded(worstFirst.Length == 0 ? Grade.Good : worstFirst[0].Grade, [.. worstFirst.Select(r => r.Reason)]);
    }
}

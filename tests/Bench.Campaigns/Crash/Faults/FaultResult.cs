namespace Bench.Campaigns.Crash.Faults;

/// <summary>What came of a fault.</summary>
/// <param name="Said">What the program said of it, or why it could not be tried.</param>
/// <param name="Lost">What is lost, or there and untrue, although it must not be.</param>
/// <param name="Unnamed">Where it was not said what happened, where, and what to do.</param>
/// <param name="Skipped">Whether it could not be tried here.</param>
internal sealed record FaultResult(string Said, IReadOnlyList<string> Lost, IReadOnlyList<string> Unnamed, bool Skipped = false)
{
    /// <summary>Holds a message against the words it must have.</summary>
    public static IEnumerable<string> Lacks(string? message, params string[] words) =>
        words.Where(w => message?.Contains(w, StringComparison.Ordinal) != true).Select(w => $"it does not say '{w}' but: {message}");
}

namespace Bench.Analysis.Judging;

/// <summary>How a failing feature is said aloud, and where to look for its cause.</summary>
/// <param name="Words">What was found; "{0}" stands for the number with its unit, "[one|many]" for the word that fits it.</param>
/// <param name="Look">Part of unit or bench to look at first; null where the words say it.</param>
/// <param name="At">Where on it; null for anywhere.</param>
internal sealed record Saying(string Words, string? Look, string? At = null);

namespace Bench.Model.Returns;

/// <summary>A question of the intake form, the same wherever the form is filled in.</summary>
/// <param name="Key">Its key in a file and its id in a form, e.g. <c>days_in_service</c> or <c>inspection.housing</c>.</param>
/// <param name="Label">What to ask.</param>
/// <param name="Help">What helps to answer; null for nothing.</param>
public sealed record IntakeField(string Key, string Label, string? Help = null)
{
    /// <summary>Whether it must be answered.</summary>
    public bool Required { get; init; }

    /// <summary>Whether it may be answered several times.</summary>
    public bool Repeats { get; init; }

    /// <summary>Whether the answer is a whole number.</summary>
    public bool IsWhole { get; init; }

    /// <summary>The answers there are; empty where anything may be typed.</summary>
    public IReadOnlyList<string> Allowed { get; init; } = [];
}

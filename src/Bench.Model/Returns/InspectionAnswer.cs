namespace Bench.Model.Returns;

/// <summary>What was found on one item of the arrival inspection.</summary>
/// <param name="Item">Id of the item in the profile.</param>
/// <param name="Answer">One of the item's answers, or <see cref="NotLooked"/>.</param>
public sealed record InspectionAnswer(string Item, string Answer)
{
    /// <summary>The answer of whoever did not look. It is never taken for a good one.</summary>
    public const string NotLooked = "not-looked";
}

namespace Bench.Model.Features;

/// <summary>What a feature is.</summary>
/// <param name="Name">Its name in profiles, records and screens.</param>
/// <param name="Unit">Unit symbol.</param>
/// <param name="Title">Title in plain words.</param>
/// <param name="Meaning">One sentence of meaning.</param>
/// <param name="OfBench">Whether it is about the bench; then it can hold a unit, never condemn it.</param>
/// <param name="Counted">Whether it counts events, or answers yes or no, and so has no measurement uncertainty.</param>
/// <param name="OnlyWhereNamed">Whether it is computed only for a profile that names it in a limit.</param>
public sealed record FeatureDefinition(
    string Name, string Unit, string Title, string Meaning, bool OfBench = false, bool Counted = false, bool OnlyWhereNamed = false);

namespace Bench.Campaigns.Wire;

/// <summary>An answer that says what coils are.</summary>
/// <param name="TimeS">When it had reached the program, seconds.</param>
/// <param name="AnyOn">Whether any of them is on.</param>
public readonly record struct CoilRead(double TimeS, bool AnyOn);

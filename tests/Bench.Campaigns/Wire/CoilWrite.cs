namespace Bench.Campaigns.Wire;

/// <summary>A write to coils that the program handed to its link.</summary>
/// <param name="TimeS">When, seconds on the bench's clock.</param>
/// <param name="Address">First coil.</param>
/// <param name="On">What each coil is to become, from the first on.</param>
public sealed record CoilWrite(double TimeS, int Address, IReadOnlyList<bool> On)
{
    /// <summary>Whether it switches anything on.</summary>
    public bool Energises => On.Contains(true);
}

namespace Bench.Model.Features;

/// <summary>Current by angle of a unit that was judged reusable.</summary>
/// <param name="TestedAt">When its test began.</param>
/// <param name="Profile">Its mean current by angle.</param>
public sealed record HealthyCurrent(DateTimeOffset TestedAt, AngleProfile Profile);

namespace Bench.Model.Profiles;

/// <summary>A named place on the ring that selects a valve port.</summary>
/// <param name="Name">Its name, unique in the profile.</param>
/// <param name="Count">Its count, 0 to N - 1.</param>
public sealed record Port(string Name, int Count);

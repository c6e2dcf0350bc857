using Bench.Devices.Lines;

namespace Bench.Devices.Boards;

/// <summary>One relay output of a board that speaks lines.</summary>
/// <param name="Device">The board.</param>
/// <param name="Channel">The relay's name in the board's lines.</param>
public sealed record LineRelay(TemplatedDevice Device, string Channel);

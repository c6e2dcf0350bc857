namespace Bench.Model.Features;

/// <summary>A straight course over the moves of a run, with the interval of its slope (Theil-Sen, C4).</summary>
/// <param name="PerMove">Slope: change per move, signed.</param>
/// <param name="Lower">Lower end of the slope's 95 % interval.</param>
/// <param name="Upper">Upper end of the slope's 95 % interval.</param>
/// <param name="Move">Middle of the moves it is of: the line and its band turn about this point.</param>
/// <param name="Value">Level of the values at that point, in their unit.</param>
public sealed record TrendLine(double PerMove, double Lower, double Upper, double Move, double Value);

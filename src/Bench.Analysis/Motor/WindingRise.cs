namespace Bench.Analysis.Motor;

/// <summary>Between which moves of a run the rise of its winding is told.</summary>
public static class WindingRise
{
    /// <summary>Moves at the beginning that are taken for cold: later ones are warm already.</summary>
    public const int ColdMoves = 6;
}

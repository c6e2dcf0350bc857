using Bench.Model.Features;

namespace Bench.Analysis.Extraction;

/// <summary>How far the evidence is after the moves so far; the runner's stopping rule reads it.</summary>
public sealed record EvidenceState
{
    /// <summary>Moves in a row without motion after which more of them tell nothing new.</summary>
    public const int MostStillInARow = 4;

    /// <summary>Where the sequential test stands.</summary>
    public required SequentialState Sequential { get; init; }

    /// <summary>Further passed moves that would reach the demonstration; 0 when reached.</summary>
    public required int MovesToGo { get; init; }

    /// <summary>Share of the ring tested, 0 to 1.</summary>
    public required double Coverage { get; init; }

    /// <summary>Further revolutions that would bring coverage to what the profile asks; 0 when there.</summary>
    public required int RevolutionsToGo { get; init; }

    /// <summary>Moves in a row, up to the last, in which the count did not move or could not be read.</summary>
    public required int StillInARow { get; init; }

    /// <summary>Whether more moves would not change the outcome.</summary>
    public required bool Enough { get; init; }

    /// <summary>Why it is enough, or what is missing, in plain words.</summary>
    public required string Because { get; init; }
}

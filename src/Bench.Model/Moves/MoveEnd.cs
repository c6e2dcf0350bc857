namespace Bench.Model.Moves;

/// <summary>Why the drive was switched off at the end of a move.</summary>
public enum MoveEnd
{
    /// <summary>The landing was predicted and the drive switched off for it; or a commanded unit came to rest by itself.</summary>
    Landed,

    /// <summary>Current near stall while the count stood still.</summary>
    Stalled,

    /// <summary>The count stood still and almost no current flowed.</summary>
    NoCurrent,

    /// <summary>The count stood still while a running current flowed.</summary>
    CountStill,

    /// <summary>The feedback gave no reading for longer than the profile allows.</summary>
    FeedbackLost,

    /// <summary>The target was not reached in the time allowed.</summary>
    OverTime,

    /// <summary>The bench ended the move: the run was stopped (cancel, emergency stop, over-current, bench fault), or the winding was as hot as it may be.</summary>
    Interrupted,
}

namespace Bench.Model.Profiles;

/// <summary>Limits within which a unit of this family may be energised (design, section 7).</summary>
public sealed record SafetyLimits
{
    /// <summary>Current that ends the run at once, amperes; above stall current.</summary>
    public required double OverCurrentA { get; init; }

    /// <summary>Time between one direction's output off and the other's on, milliseconds (S2).</summary>
    public required double DeadTimeMs { get; init; }

    /// <summary>Longest time the count may stand still under drive, milliseconds.</summary>
    public required double NoMotionMs { get; init; }

    /// <summary>Longest time without a position reading while the drive is on, milliseconds (S4).</summary>
    public required double FeedbackLostMs { get; init; }

    /// <summary>Longest time the drive may be on in one move, milliseconds (S7).</summary>
    public required double MostOnMs { get; init; }

    /// <summary>Greatest share of any <see cref="DutyWindowS"/> the drive may be on, 0 to 1 (S7).</summary>
    public required double MostDuty { get; init; }

    /// <summary>Window over which duty is measured, seconds.</summary>
    public required double DutyWindowS { get; init; }

    /// <summary>How the winding heats (S7); null when the profile does not say.</summary>
    public WindingLimits? Winding { get; init; }
}

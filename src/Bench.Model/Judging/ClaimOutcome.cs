namespace Bench.Model.Judging;

/// <summary>What becomes of the claim.</summary>
public enum ClaimOutcome
{
    /// <summary>The claimed feedback fault was found.</summary>
    Confirmed,

    /// <summary>No fault was found in a completed demonstration.</summary>
    NotReproduced,

    /// <summary>Another fault than the claimed one was found.</summary>
    OtherFault,

    /// <summary>The evidence does not tell.</summary>
    Undetermined,
}

namespace Bench.Records.Runs;

/// <summary>Whether a run is signed off.</summary>
public enum SignOffState
{
    /// <summary>Nobody signed.</summary>
    None,

    /// <summary>Signed, and neither corrected nor judged again since.</summary>
    Current,

    /// <summary>Signed, and corrected or judged again since.</summary>
    Older,
}

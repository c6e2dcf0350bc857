namespace Bench.Model.Judging;

/// <summary>How a run came out.</summary>
public enum RunOutcome
{
    /// <summary>It has a disposition.</summary>
    Judged,

    /// <summary>The evidence is not sufficient; the run says what is missing.</summary>
    Held,

    /// <summary>Safety or a bench fault ended it; the run says which.</summary>
    Aborted,
}

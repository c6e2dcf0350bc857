namespace Bench.Model.Profiles;

/// <summary>What follows when a limit is not met.</summary>
public enum Severity
{
    /// <summary>The unit needs the limit's remedy.</summary>
    Repair,

    /// <summary>The unit is beyond repair.</summary>
    Scrap,

    /// <summary>The evidence is not sufficient to judge the unit: the bench or the run must be mended first.</summary>
    Hold,

    /// <summary>Worth telling, decides nothing.</summary>
    Note,
}

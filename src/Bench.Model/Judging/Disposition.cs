namespace Bench.Model.Judging;

/// <summary>Where the unit goes.</summary>
public enum Disposition
{
    /// <summary>Back into use.</summary>
    Reusable,

    /// <summary>To the repair bench.</summary>
    Repairable,

    /// <summary>To recycling.</summary>
    Scrap,
}

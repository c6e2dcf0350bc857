namespace Bench.Model.Entries;

/// <summary>What an entry says.</summary>
public enum EntryKind
{
    /// <summary>A judgement made later.</summary>
    Judgement,

    /// <summary>A fact of the return set right.</summary>
    Correction,

    /// <summary>A person's signature under a run and all that was said of it.</summary>
    SignOff,

    /// <summary>A person's remark.</summary>
    Note,

    /// <summary>A key that the bench signs with from here on.</summary>
    Key,

    /// <summary>A trace file dropped by policy.</summary>
    DroppedTrace,

    /// <summary>A return as it was taken in.</summary>
    Return,
}

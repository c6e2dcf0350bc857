namespace Bench.Cli.Checking;

/// <summary>How good a part of a bench is, best first.</summary>
internal enum Grade
{
    /// <summary>Nothing to mend.</summary>
    Good,

    /// <summary>Runs go; something could be better.</summary>
    Usable,

    /// <summary>Runs will be held, or take too long.</summary>
    Poor,

    /// <summary>No run can be made.</summary>
    Failing,
}

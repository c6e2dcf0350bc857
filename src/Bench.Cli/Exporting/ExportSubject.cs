namespace Bench.Cli.Exporting;

/// <summary>What a table is of.</summary>
internal enum ExportSubject
{
    /// <summary>A row for each run.</summary>
    Runs,

    /// <summary>A row for each finding.</summary>
    Findings,

    /// <summary>A row for each feature of a run.</summary>
    Features,

    /// <summary>A row for each move.</summary>
    Moves,

    /// <summary>A row for each sample of one run.</summary>
    Trace,
}

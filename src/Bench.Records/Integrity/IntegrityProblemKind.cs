namespace Bench.Records.Integrity;

/// <summary>What a check of the store can find.</summary>
public enum IntegrityProblemKind
{
    /// <summary>The database file itself is damaged.</summary>
    DatabaseDamaged,

    /// <summary>An entry is not what was sealed.</summary>
    EntryAltered,

    /// <summary>Entries are gone from the chain.</summary>
    EntryMissing,

    /// <summary>An entry does not follow the one before it.</summary>
    EntryReordered,

    /// <summary>A column that lists and searches use says something else than the record.</summary>
    ColumnAltered,

    /// <summary>A trace file is not what was sealed.</summary>
    TraceAltered,

    /// <summary>A photo or file of a return is not what was kept.</summary>
    AttachmentAltered,

    /// <summary>A photo or file of a return is gone.</summary>
    AttachmentMissing,

    /// <summary>A trace file is gone.</summary>
    TraceMissing,

    /// <summary>A trace file belongs to no run: the database has lost its end, or the file is from elsewhere.</summary>
    TraceWithoutRun,

    /// <summary>A sign-off names another hash of the run than the run has.</summary>
    SignOffOfOther,

    /// <summary>A signature is not one of the key it names, or that key was never introduced.</summary>
    SignatureBad,

    /// <summary>A signature is of nothing in the store.</summary>
    SignatureStray,

    /// <summary>Something is not signed by a key that is trusted.</summary>
    SignatureMissing,
}

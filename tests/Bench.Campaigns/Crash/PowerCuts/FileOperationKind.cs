namespace Bench.Campaigns.Crash.PowerCuts;

/// <summary>Kinds of what a program asks of the file system.</summary>
internal enum FileOperationKind
{
    /// <summary>A file was opened that may be made thereby.</summary>
    Open,

    /// <summary>A folder was made.</summary>
    MakeFolder,

    /// <summary>Bytes were written into a file.</summary>
    Write,

    /// <summary>A file got another size.</summary>
    Truncate,

    /// <summary>A file, or a folder's entries, were flushed.</summary>
    Flush,

    /// <summary>A file got another name.</summary>
    Rename,

    /// <summary>A name was taken away.</summary>
    Delete,

    /// <summary>The program said a line.</summary>
    Say,
}

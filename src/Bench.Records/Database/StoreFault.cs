using Microsoft.Data.Sqlite;

namespace Bench.Records.Database;

/// <summary>What went wrong in the store, in words: what, where, what to do.</summary>
internal static class StoreFault
{
    private const int Busy = 5;
    private const int Locked = 6;
    private const int ReadOnly = 8;
    private const int InputOutput = 10;
    private const int Corrupt = 11;
    private const int Full = 13;
    private const int CannotOpen = 14;
    private const int Constraint = 19;
    private const int NotADatabase = 26;

    private const int LinuxReadOnly = 30;
    private const int LinuxNoSpace = 28;
    private const int WindowsDiskFull = unchecked((int)0x80070070);

    /// <summary>Whether an exception is a failure of the store that a user can meet, not a defect.</summary>
    public static bool IsExpected(Exception e) => e is SqliteException or IOException or UnauthorizedAccessException;

    /// <summary>Whether it says no more than that the place may not be written.</summary>
    public static bool IsReadOnly(Exception? e) =>
        e is SqliteException { SqliteErrorCode: ReadOnly or CannotOpen } or UnauthorizedAccessException or IOException { HResult: LinuxReadOnly };

    /// <summary>The exception to throw for one that <see cref="IsExpected"/>.</summary>
    /// <param name="e">The cause.</param>
    /// <param name="doing">What was being done, e.g. "seal run 0190...".</param>
    /// <param name="where">File or folder.</param>
    public static StoreException Of(Exception e, string doing, string where) =>
        new($"cannot {doing}: {Explain(e, where)}", e);

    private static string Explain(Exception e, string where) => e switch
    {
        SqliteException { SqliteErrorCode: Busy or Locked } =>
            $"'{where}' is locked by another process; let it finish or close it, then try again",
        SqliteException { SqliteErrorCode: Full } or IOException { HResult: LinuxNoSpace or WindowsDiskFull } =>
            $"the disk that holds '{where}' is full; free some space",
        SqliteException { SqliteErrorCode: ReadOnly } or UnauthorizedAccessException =>
            $"'{where}' is read-only or belongs to another user; give this user the right to write it, or choose another data folder",
        SqliteException { SqliteErrorCode: CannotOpen } =>
            $"'{where}' cannot be opened: it or its folder is read-only, or it is no file; give this user the right to write both, or choose another data folder",
        SqliteException { SqliteErrorCode: NotADatabase } =>
            $"'{where}' is not a database; move it away, or choose another data folder",
        SqliteException { SqliteErrorCode: Corrupt } =>
            $"'{where}' is damaged; keep a copy of the data folder as it is, then restore the last good copy",
        SqliteException { SqliteErrorCode: Constraint } =>
            $"'{where}' holds it already, or the run is no longer open because another process recovered it ({e.Message}); see 'bench runs'",
        SqliteException { SqliteErrorCode: InputOutput } or IOException =>
            $"reading or writing '{where}' failed ({e.Message}); check the disk and the data folder",
        _ => $"'{where}': {e.Message}",
    };
}

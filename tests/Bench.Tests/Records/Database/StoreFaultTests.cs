using Bench.Records;
using Bench.Records.Database;
using Microsoft.Data.Sqlite;

namespace Bench.Tests.Records.Database;

public class StoreFaultTests
{
    // Result codes: sqlite.org, "Result and Error Codes" (from memory).
    [Theory]
    [InlineData(5, "locked by another process")]
    [InlineData(6, "locked by another process")]
    [InlineData(8, "read-only")]
    [InlineData(10, "check the disk")]
    [InlineData(11, "damaged")]
    [InlineData(13, "is full; free some space")]
    [InlineData(14, "cannot be opened")]
    [InlineData(26, "is not a database")]
    public void Of_ResultOfTheDatabase_SaysWhatAndWhere(int code, string expected)
    {
        StoreException e = StoreFault.Of(new SqliteException("x", code), "seal run 1", "/data/bench.db");
        Assert.StartsWith("cannot seal run 1: ", e.Message, StringComparison.Ordinal);
        Assert.Contains("'/data/bench.db'", e.Message, StringComparison.Ordinal);
        Assert.Contains(expected, e.Message, StringComparison.Ordinal);
    }

    // ENOSPC is 28 on Linux and macOS (errno.h); ERROR_DISK_FULL is 112 on Windows (from memory).
    [Theory]
    [InlineData(28)]
    [InlineData(unchecked((int)0x80070070))]
    public void Of_FileOnAFullDisk_SaysSo(int result) =>
        Assert.Contains("is full", StoreFault.Of(new IOException("x", result), "write", "/data").Message, StringComparison.Ordinal);

    [Fact]
    public void Of_FileOfAnotherUser_SaysSo() =>
        Assert.Contains("belongs to another user", StoreFault.Of(new UnauthorizedAccessException(), "write", "/data").Message, StringComparison.Ordinal);
}

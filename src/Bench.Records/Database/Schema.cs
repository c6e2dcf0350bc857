using Bench.Records.Database.Steps;

namespace Bench.Records.Database;

/// <summary>The tables, as the steps that lead to them, a file each. A step that has shipped never changes; new ones go at the end.</summary>
internal static class Schema
{
    /// <summary>Marks the file as ours in SQLite's header: "BNCH" in ASCII.</summary>
    public const int ApplicationId = 0x424E4348;

    /// <summary>The version this program writes, kept in PRAGMA user_version.</summary>
    public static int Version => Steps.Count;

    /// <summary>Step i leads from version i to version i + 1.</summary>
    public static IReadOnlyList<string> Steps { get; } = [Step1.Sql, Step2.Sql, Step3.Sql];
}

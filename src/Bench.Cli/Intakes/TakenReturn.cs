using System.CommandLine;
using Bench.Cli.Verbs;
using Bench.Model.Entries;
using Bench.Model.Profiles;
using Bench.Model.Returns;
using Bench.Records;

namespace Bench.Cli.Intakes;

/// <summary>A return that was taken in, for a run.</summary>
/// <param name="Entry">The entry.</param>
/// <param name="Hash">Its hash in the chain.</param>
internal sealed record TakenReturn(ReturnEntry Entry, string Hash)
{
    /// <summary>The return of a number.</summary>
    /// <exception cref="CliException">There is none.</exception>
    public static TakenReturn Find(ParseResult options, string number)
    {
        using RecordStore store = StoreAccess.OpenExisting(options);
        return store.FindReturn(number) is { Entry: ReturnEntry entry } found
            ? new TakenReturn(entry, found.Hash)
            : throw new CliException(ExitCode.BadInput, $"return {number}: no return of that number was taken in; 'bench intake --list' lists them, 'bench intake' takes one in");
    }

    /// <summary>The return as a run of it carries it.</summary>
    /// <exception cref="CliException">The profile is another family's.</exception>
    public UnitReturn For(Profile profile) => profile.Family == Entry.Family
        ? Entry.Return with { EntryHash = Hash }
        : throw new CliException(ExitCode.BadInput, $"return {Entry.Return.ReturnNumber} was taken in as {Entry.Family}, and {profile.Family} is another family; choose the unit's own profile");
}

using Bench.Model.Entries;
using Bench.Model.Serialization;
using Bench.Reporting.Sections;

namespace Bench.Reporting.Text;

/// <summary>Entries as plain sentences.</summary>
public static class EntryWording
{
    /// <summary>What an entry says, one sentence.</summary>
    public static string Of(StoreEntry entry) => entry switch
    {
        LaterJudgement later => $"{Moment.Of(later.MadeAt)}: judged again under profile version {later.ProfileVersion}: "
            + $"{(later.Judgement.Disposition is { } disposition ? BenchJson.Word(disposition) : BenchJson.Word(later.Judgement.Outcome))}, claim {BenchJson.Word(later.Judgement.Claim)}.",
        Correction correction => $"{Moment.Of(correction.MadeAt)}: {Fact(correction)} set right by {correction.By} from {Quoted(correction.Was)} to {Quoted(correction.To)}: {correction.Because}",
        ReturnEntry taken => $"{Moment.Of(taken.MadeAt)}: return {taken.Return.ReturnNumber} of unit {taken.Return.Serial} taken in.",
        Note note => $"{Moment.Of(note.MadeAt)}: {note.By} notes: {note.Text}",
        DroppedTrace drop => $"{Moment.Of(drop.MadeAt)}: trace dropped by {drop.By}, as of runs older than {Quantity.Count(drop.OlderThanDays, "day", "days")}: {drop.Because}",
        SignOff sign => $"{Moment.Of(sign.MadeAt)}: signed off by {sign.Name}, {sign.Role}: {sign.Statement}",
        _ => $"{Moment.Of(entry.MadeAt)}: {BenchJson.Word(entry.Kind)}",
    };

    /// <summary>What a later entry takes from a sign-off: the sentence to show beside it; null when nothing was said after it.</summary>
    public static string? Stale(IReadOnlyList<SealedEntry> entries, SealedEntry sign)
    {
        ArgumentNullException.ThrowIfNull(entries);
        ArgumentNullException.ThrowIfNull(sign);
        int after = entries.Count(e => e.Sequence > sign.Sequence && e.Entry is (Correction or LaterJudgement));
        return after == 0 ? null : $"▲ {Quantity.Count(after, "entry was", "entries were")} made after this signature and {(after == 1 ? "is" : "are")} not covered by it.";
    }

    private static string Fact(Correction of) => of.Item is { } item ? $"inspection item {item}" : BenchJson.Word(of.Fact).Replace('-', ' ');

    private static string Quoted(string? text) => text is null ? "nothing" : $"“{text}”";
}

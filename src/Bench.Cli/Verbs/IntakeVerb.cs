using System.CommandLine;
using Bench.Cli.Intakes;
using Bench.Cli.Output;
using Bench.Model.Entries;
using Bench.Model.Profiles;
using Bench.Model.Returns;
using Bench.Model.Safety;
using Bench.Model.Serialization;
using Bench.Records;
using Bench.Records.Keys;
using Bench.Records.Returns;

namespace Bench.Cli.Verbs;

/// <summary><c>bench intake</c>: takes a return in, by questions, by options or from a file.</summary>
internal static class IntakeVerb
{
    private static readonly Option<string?> ProfileOption = new("--profile") { Description = "Profile of the unit's family (TOML)", HelpName = "FILE" };
    private static readonly Option<string?> FileOption = new("--file") { Description = "Intake file (TOML) with the answers", HelpName = "FILE" };
    private static readonly Option<string[]> FoundOption = new("--found") { Description = "Answer to an item of the arrival inspection; repeat for more", HelpName = "ITEM=ANSWER" };
    private static readonly Option<string[]> AttachOption = new("--attach") { Description = "Photo or file to keep with the return; repeat for more", HelpName = "FILE" };
    private static readonly Option<bool> ListOption = new("--list") { Description = "List the returns taken in, newest first, and take none in" };
    private static readonly Option<string?> OfOption = new("--of") { Description = "With --list: only those of this serial number", HelpName = "SN" };

    private static readonly (string Key, Option<string[]> Option)[] Fields =
    [
        ("serial", Field("--serial", "Serial number on the unit's label", "SN")),
        ("part", Field("--part", "Part number on the unit's label", "PN")),
        ("revision", Field("--revision", "Revision on the unit's label", "REV")),
        ("date_code", Field("--date-code", "Date code on the unit's label", "CODE")),
        ("return_number", Field("--return-number", "Number of the return", "RN")),
        ("symptom", Field("--symptom", "What the field reported", "constant|intermittent")),
        ("note", Field("--note", "What the field wrote or saw", "TEXT")),
        ("measured", Field("--measured", "What the field measured; repeat for more", "'WHAT = NUMBER UNIT'")),
        ("days_in_service", Field("--days-in-service", "Days the unit was in service", "DAYS")),
    ];

    /// <summary>Gives the verb its options and action.</summary>
    public static void Fill(Command command)
    {
        command.Add(ProfileOption);
        foreach ((_, Option<string[]> option) in Fields)
        {
            command.Add(option);
        }

        command.Add(FoundOption);
        command.Add(AttachOption);
        command.Add(FileOption);
        command.Add(ListOption);
        command.Add(OfOption);
        command.Validators.Add(result =>
        {
            if (result.GetResult(ProfileOption) is null && result.GetResult(ListOption) is null)
            {
                result.AddError("Option '--profile' is required.");
            }
        });
        command.SetGuardedAction(options => Task.FromResult(options.GetValue(ListOption) ? List(options) : TakeIn(options)));
    }

    private static int TakeIn(ParseResult options)
    {
        Profile profile = UserFiles.Profile(options.GetRequiredValue(ProfileOption)!);
        IntakeForm form = new(profile);
        Dictionary<string, IReadOnlyList<string>> answers = Given(options, form);
        IReadOnlyList<string> files = answers.Remove(IntakeFileReader.Attach, out IReadOnlyList<string>? listed) ? listed : [];
        Terminal.Say("Before the unit is touched");
        Terminal.Say("  ! ", Cautions.Handling);
        bool asks = !Console.IsInputRedirected && !Console.IsErrorRedirected && form.Fields.Any(f => f.Required && !answers.ContainsKey(f.Key));
        if (asks)
        {
            IntakeAnswers.Ask(form, answers);
        }

        UnitReturn? unit = form.Read(answers, out IReadOnlyList<IntakeError> errors);
        List<IntakeError> wrong = [.. errors];
        (string Name, byte[] Bytes)[] contents = [.. files.Select(f => (f, Content(f, wrong)))];
        if (unit is null || wrong.Count > 0)
        {
            throw new CliException(ExitCode.BadInput, string.Join(Environment.NewLine, wrong.Select(e => e.ToString()).Append("Nothing was taken in.")));
        }

        using BenchKey? key = KeyFile.Load();
        using RecordStore store = RecordStore.Open(DataFolder.Resolve(options.GetValue(CommonOptions.Data)), TimeProvider.System, key: key);
        unit = unit with { Attachments = [.. contents.Select(c => store.Attach(c.Name, c.Bytes))] };
        Print(store.TakeIn(unit, profile), store, profile, options.GetValue(CommonOptions.Json));
        return ExitCode.Done;
    }

    private static Dictionary<string, IReadOnlyList<string>> Given(ParseResult options, IntakeForm form)
    {
        string? file = options.GetValue(FileOption);
        Dictionary<string, IReadOnlyList<string>> answers = file is null ? [] : UserFiles.Intake(file, form);

        // A path in a file counts from where the file is.
        string folder = file is null ? "" : Path.GetDirectoryName(Path.GetFullPath(file))!;
        List<string> attached = [.. answers.GetValueOrDefault(IntakeFileReader.Attach, []).Select(f => Path.Combine(folder, f))];
        attached.AddRange(options.GetValue(AttachOption) ?? []);
        answers[IntakeFileReader.Attach] = attached;
        foreach ((string key, Option<string[]> option) in Fields)
        {
            if (options.GetValue(option) is { Length: > 0 } given)
            {
                answers[key] = given;
            }
        }

        foreach (IGrouping<string, string[]> found in (options.GetValue(FoundOption) ?? []).Select(f => f.Split('=', 2)).GroupBy(f => f[0].Trim()))
        {
            answers[Model.Features.InspectionFeatures.Of(found.Key)] = [.. found.Select(f => f.Length == 2 ? f[1] : "")];
        }

        return answers;
    }

    private static byte[] Content(string path, List<IntakeError> wrong)
    {
        string refused;
        try
        {
            FileInfo file = new(path);
            if (file.Exists && file.Length is > 0 and <= RecordStore.MostAttachmentBytes)
            {
                return File.ReadAllBytes(path);
            }

            refused = file.Exists ? $"{file.Length} bytes" : "no such file";
        }
        catch (Exception e) when (e is IOException or UnauthorizedAccessException or NotSupportedException or ArgumentException)
        {
            refused = e.Message;
        }

        wrong.Add(new IntakeError($"{IntakeFileReader.Attach} '{path}'", refused, $"a file of 1 to {RecordStore.MostAttachmentBytes} bytes is allowed"));
        return [];
    }

    private static void Print(SealedEntry entry, RecordStore store, Profile profile, bool json)
    {
        ReturnEntry taken = (ReturnEntry)entry.Entry;
        UnitReturn unit = taken.Return;
        IReadOnlyList<EarlierVisit> before = store.EarlierVisits(unit.Serial, entry.Entry.MadeAt);
        ReturnEntry[] others = [.. store.Returns(unit.Serial).Select(r => r.Entry).OfType<ReturnEntry>().Where(r => r.Return.ReturnNumber != unit.ReturnNumber)];
        string? forbidden = ArrivalInspection.WhyNotToEnergise(unit, profile);
        if (json)
        {
            Terminal.Json(new
            {
                Entry = entry.Sequence,
                entry.Hash,
                taken.Family,
                Return = unit,
                MayBeEnergised = forbidden is null,
                EarlierRuns = before,
                OtherReturns = others.Select(r => new { r.Return.ReturnNumber, r.MadeAt }),
            });
            return;
        }

        Terminal.Result($"Return {unit.ReturnNumber} of unit {unit.Serial} ({profile.Title}) is taken in: entry {entry.Sequence}, hash {entry.Hash}");
        foreach (string line in EarlierVisits.Lines(before, others))
        {
            Terminal.Result(line);
        }

        foreach (InspectionItem item in profile.Inspection.Where(i => unit.Answer(i.Id) is { } a && i.Answers.Contains(a) && !i.Conforms.Contains(a)))
        {
            Terminal.Result($"■ On arrival {item.Means} ({item.Id}: {unit.Answer(item.Id)}).");
        }

        Terminal.Result(forbidden is null
            ? $"Next: bench run --bench FILE --profile {profile.Family}.toml --return {unit.ReturnNumber}"
            : $"▲ Do not energise it. Next: bench run --inspect-only --bench FILE --profile {profile.Family}.toml --return {unit.ReturnNumber}");
    }

    private static int List(ParseResult options)
    {
        using RecordStore store = StoreAccess.OpenToRead(options);
        IReadOnlyList<SealedEntry> returns = store.Returns(options.GetValue(OfOption));
        if (options.GetValue(CommonOptions.Json))
        {
            Terminal.Json(returns.Select(r => new { r.Sequence, r.Hash, Taken = (object)r.Entry }));
            return ExitCode.Done;
        }

        Terminal.Result($"{"return",-16}  {"taken in (UTC)",-16}  {"serial",-16}  {"symptom",-12}  family");
        foreach (ReturnEntry taken in returns.Select(r => r.Entry).OfType<ReturnEntry>())
        {
            Terminal.Result($"{taken.Return.ReturnNumber,-16}  {taken.MadeAt.UtcDateTime:yyyy-MM-dd HH:mm}  {taken.Return.Serial,-16}  {BenchJson.Word(taken.Return.Symptom),-12}  {taken.Family}");
        }

        return ExitCode.Done;
    }

    private static Option<string[]> Field(string name, string description, string help) => new(name) { Description = description, HelpName = help };
}

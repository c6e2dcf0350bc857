using System.CommandLine;
using Bench.Model.Judging;
using Bench.Model.Returns;
using Bench.Records.Runs;

namespace Bench.Cli.Verbs;

/// <summary>The options that choose among stored runs, the same for every verb that does.</summary>
internal static class RunFilterOptions
{
    private static readonly Option<string?> Serial = TextOption.Of("--serial", "SN", "Only runs of this serial number");
    private static readonly Option<string?> SerialPrefix = TextOption.Of("--serial-prefix", "TEXT", "Only runs of serial numbers that begin so");
    private static readonly Option<string?> Family = TextOption.Of("--family", "NAME", "Only runs of this family");
    private static readonly Option<RunOutcome?> Outcome = WordOption.Of<RunOutcome>("--outcome", "judged|held|aborted", "Only runs that came out so");
    private static readonly Option<Disposition?> To = WordOption.Of<Disposition>("--disposition", "reusable|repairable|scrap", "Only units that go there");
    private static readonly Option<ClaimOutcome?> Claim =
        WordOption.Of<ClaimOutcome>("--claim", "confirmed|not-reproduced|other-fault|undetermined", "Only claims that came out so");

    private static readonly Option<Symptom?> Symptom = WordOption.Of<Symptom>("--symptom", "constant|intermittent", "Only returns with this reported symptom");
    private static readonly Option<string?> Cause = TextOption.Of("--cause", "ID", "Only runs whose likeliest cause is this fault mode of the profile");
    private static readonly Option<DateTimeOffset?> Since = Moment("--since", "Only runs started then or later: 2026-06-30 (UTC) or 2026-06-30T08:00:00Z", DateMoment.BeginOf);
    private static readonly Option<DateTimeOffset?> Until = Moment("--until", "Only runs started before; a date alone takes its whole day in", DateMoment.EndOf);

    private static readonly Option[] All = [Serial, SerialPrefix, Family, Outcome, To, Claim, Symptom, Cause, Since, Until];

    /// <summary>Gives a verb the options.</summary>
    public static void AddTo(Command command) => command.AddAll(All);

    /// <summary>Names of the options that were given.</summary>
    public static IReadOnlyList<string> Given(ParseResult options) =>
        [.. All.Where(o => options.GetResult(o) is { Implicit: false }).Select(o => o.Name)];

    /// <summary>The filter that was asked for.</summary>
    /// <exception cref="CliException">No run can pass it.</exception>
    public static RunFilter Read(ParseResult options)
    {
        RunFilter filter = new()
        {
            Serial = options.GetValue(Serial),
            SerialPrefix = options.GetValue(SerialPrefix),
            Family = options.GetValue(Family),
            Outcome = options.GetValue(Outcome),
            Disposition = options.GetValue(To),
            Claim = options.GetValue(Claim),
            Symptom = options.GetValue(Symptom),
            LikeliestCause = options.GetValue(Cause),
            From = options.GetValue(Since),
            Before = options.GetValue(Until),
        };
        return filter.From >= filter.Before
            ? throw new CliException(ExitCode.BadInput, $"--since, --until: no run starts at or after {filter.From:O} and before {filter.Before:O}; give --until a later time")
            : filter;
    }

    private static Option<DateTimeOffset?> Moment(string name, string description, Func<string, DateTimeOffset?> read) => new(name)
    {
        Description = description,
        HelpName = "TIME",
        CustomParser = argument =>
        {
            string text = argument.Tokens.Count == 1 ? argument.Tokens[0].Value : "";
            DateTimeOffset? moment = read(text);
            if (moment is null)
            {
                argument.AddError($"{name} '{text}': give a date of UTC (2026-06-30) or an instant after RFC 3339 with its offset (2026-06-30T08:00:00Z)");
            }

            return moment;
        },
    };
}

using System.Globalization;
using Bench.Model.Configuration;
using Bench.Model.Features;
using Bench.Model.Judging;
using Bench.Model.Returns;

namespace Bench.Model.Profiles;

/// <summary>Reads the <c>[[claim]]</c> tables.</summary>
internal static class ClaimReader
{
    public static IReadOnlyList<ClaimRule> ReadAll(Section document, IReadOnlyList<FaultMode> faults)
    {
        List<ClaimRule> rules = [];
        string[] causes = [.. faults.Select(f => f.Id).Where(id => id != FaultModeReader.None)];
        ClaimReach reach = new(causes);
        foreach (Section section in document.Tables("claim"))
        {
            ClaimRule rule = Read(section, causes);
            if (reach.Add(rule) is { Count: > 0 } earlier)
            {
                section.Refuse("", "a row that no unit reaches", string.Create(
                    CultureInfo.InvariantCulture, $"the first row that fits decides, and {Rows(earlier)} all of its units; put the narrower row first, or remove it"));
            }

            rules.Add(rule);
        }

        return rules;
    }

    private static string Rows(IReadOnlyList<int> numbers) => numbers.Count == 1
        ? string.Create(CultureInfo.InvariantCulture, $"row {numbers[0]} fits")
        : string.Create(CultureInfo.InvariantCulture, $"rows {string.Join(", ", numbers.SkipLast(1))} and {numbers[^1]} together fit");

    private static ClaimRule Read(Section section, string[] causes)
    {
        Disposition? disposition = section.Word<Disposition>("disposition", required: false);
        string? cause = section.Id("cause", required: false);
        Symptom? symptom = section.Word<Symptom>("symptom", required: false);
        SequentialState? demonstration = section.Word<SequentialState>("demonstration", required: false);
        ClaimOutcome? outcome = section.Word<ClaimOutcome>("outcome");
        string[] conditions = ["disposition", "cause", "symptom", "demonstration"];
        if (!conditions.Any(section.Has))
        {
            section.Refuse("", "a row without a condition", "one or more of disposition, cause, symptom and demonstration are required");
        }

        if (cause is not null && !causes.Contains(cause))
        {
            section.Refuse("cause", null, $"there is no such fault; {NearestName.Advice(cause, causes)}");
        }

        if (disposition == Disposition.Reusable && section.Has("cause"))
        {
            section.Refuse("cause", null, "a reusable unit has no cause; remove it");
        }

        if (disposition == Disposition.Reusable && demonstration is not null and not SequentialState.Shown)
        {
            section.Refuse("demonstration", null, "\"shown\" is allowed for a reusable unit: without it a unit is held");
        }

        // No finding did not conform: nothing stands behind such a claim.
        if (outcome is ClaimOutcome.Confirmed or ClaimOutcome.OtherFault && disposition == Disposition.Reusable)
        {
            section.Refuse("outcome", null, "\"not-reproduced\" or \"undetermined\" is allowed for a reusable unit: no fault was found in it");
        }
        else if (outcome is ClaimOutcome.Confirmed or ClaimOutcome.OtherFault && disposition is null && cause is null)
        {
            section.Refuse("outcome", null, "this row would also fit reusable units, in which no fault was found; name a cause, or the disposition \"repairable\" or \"scrap\"");
        }
        else if (outcome == ClaimOutcome.NotReproduced && disposition != Disposition.Reusable)
        {
            section.Refuse("outcome", null, "\"not-reproduced\" goes with disposition = \"reusable\" only: in other units a fault was found");
        }

        section.Close();
        return new ClaimRule { Disposition = disposition, Cause = cause, Symptom = symptom, Demonstration = demonstration, Outcome = outcome ?? default };
    }
}

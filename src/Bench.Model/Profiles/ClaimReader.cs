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
        foreach (Section section in document.Tables("claim"))
        {
            ClaimRule rule = Read(section, faults);
            int earlier = rules.FindIndex(r => r.Includes(rule));
            if (earlier >= 0)
            {
                section.Refuse("", "a row that no unit reaches", string.Create(
                    CultureInfo.InvariantCulture, $"the first row that fits decides, and row {earlier + 1} fits all of its units; put the narrower row first, or remove it"));
            }

            rules.Add(rule);
        }

        return rules;
    }

    private static ClaimRule Read(Section section, IReadOnlyList<FaultMode> faults)
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

        string[] causes = [.. faults.Select(f => f.Id).Where(id => id != FaultModeReader.None)];
        if (cause is not null && !causes.Contains(cause))
        {
            section.Refuse("cause", null, $"there is no such fault; {NearestName.Advice(cause, causes)}");
        }

        if (disposition == Disposition.Reusable && section.Has("cause"))
        {
            section.Refuse("cause", null, "a reusable unit has no cause; remove it");
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

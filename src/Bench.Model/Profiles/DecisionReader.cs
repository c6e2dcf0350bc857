using System.Globalization;
using Bench.Model.Configuration;

namespace Bench.Model.Profiles;

/// <summary>Reads <c>[demonstration]</c>, <c>[economics]</c> and <c>[[remedy]]</c>: when evidence is enough and what work is worth.</summary>
internal static class DecisionReader
{
    private const int MostMoves = 100_000;
    private static readonly NumberRange Money = new(0, 1e9);
    private static readonly NumberRange Minutes = new(0, 10_000);

    public static Demonstration? ReadDemonstration(Section? section)
    {
        if (section is null)
        {
            return null;
        }

        double? p0 = section.Number("p0", NumberRange.InnerShare);
        double? p1 = section.Number("p1", NumberRange.InnerShare);
        if (p1 <= p0)
        {
            section.Refuse("p1", null, string.Create(CultureInfo.InvariantCulture, $"above p0 ({p0}) is allowed"));
        }

        // Wald's test needs alpha + beta < 1; at a half each it would be a coin.
        NumberRange risk = new(0, 0.5, IsOpen: true);
        double? alpha = section.Number("alpha", risk);
        double? beta = section.Number("beta", risk);
        int? moves = section.Whole("most_moves", 1, MostMoves);
        double? coverage = section.Number("ring_coverage", NumberRange.Share);
        double? missed = section.Number("missed_sensor_alpha", risk);
        Demonstration plan = new()
        {
            P0 = p0 ?? 0,
            P1 = p1 ?? 0,
            Alpha = alpha ?? 0,
            Beta = beta ?? 0,
            MostMoves = moves ?? 0,
            RingCoverage = coverage ?? 0,
            MissedSensorAlpha = missed ?? 0,
        };
        if (p0 > 0 && p1 > p0 && p1 < 1 && alpha > 0 && beta > 0 && moves is not null)
        {
            ExpectEnough(section, plan);
        }

        section.Close();
        return plan;
    }

    /// <summary>Refuses a truncation that no unit can pass.</summary>
    public static void ExpectEnough(Section section, Demonstration plan, string key = "most_moves")
    {
        if (plan.MostMoves < plan.FewestMoves)
        {
            section.Refuse(key, null, string.Create(
                CultureInfo.InvariantCulture, $"{plan.FewestMoves} or more is allowed: with these p0, p1, alpha and beta fewer moves can't show even a unit that never fails"));
        }
    }

    public static Economics? ReadEconomics(Section? section)
    {
        if (section is null)
        {
            return null;
        }

        string? currency = section.Text("currency");
        double? replacement = section.Number("replacement_cost", NumberRange.Positive(Money.Most));
        double? labour = section.Number("labour_per_hour", Money);
        double? fraction = section.Number("greatest_repair_fraction", NumberRange.Share);
        section.Close();
        return new Economics
        {
            Currency = currency ?? "",
            ReplacementCost = replacement ?? 0,
            LabourPerHour = labour ?? 0,
            GreatestRepairFraction = fraction ?? 0,
        };
    }

    public static Remedy ReadRemedy(Section section, UniqueNames ids)
    {
        string? id = section.Id("id");
        ids.Take(section, "id", id);
        string? work = section.Text("work");
        double? parts = section.Number("parts_cost", Money);
        double? minutes = section.Number("minutes", Minutes);
        int? order = section.Whole("order", 1, 1000);
        section.Close();
        return new Remedy { Id = id ?? "", Work = work ?? "", PartsCost = parts ?? 0, Minutes = minutes ?? 0, Order = order ?? 0 };
    }
}

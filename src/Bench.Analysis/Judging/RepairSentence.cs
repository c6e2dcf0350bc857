using System.Globalization;
using Bench.Model.Judging;
using Bench.Model.Profiles;

namespace Bench.Analysis.Judging;

/// <summary>What repair would cost, in plain sentences.</summary>
internal static class RepairSentence
{
    /// <summary>A contender below this is not told.</summary>
    private const double LeastTold = 0.05;

    /// <summary>That it is not worth it.</summary>
    public static string TooDear(WorkPlan plan, Economics economics) => string.Create(
        CultureInfo.InvariantCulture,
        $"Repair would cost {plan.Cost:0.00} {economics.Currency}, more than the {plan.Most:0.00} {economics.Currency} a repair is worth.");

    /// <summary>That it is worth it.</summary>
    public static string Worth(WorkPlan plan, Economics economics) => string.Create(
        CultureInfo.InvariantCulture,
        $"Repair would cost {plan.Cost:0.00} {economics.Currency} and take {plan.Items.Sum(i => i.Minutes):0.#} min; it is worth up to {plan.Most:0.00} {economics.Currency}.");

    /// <summary>That it depends on the cause.</summary>
    /// <param name="contenders">Causes with their plans, likeliest first; at least one.</param>
    /// <param name="economics">Currency.</param>
    public static string Undecided(IReadOnlyList<(Cause Cause, WorkPlan Plan)> contenders, Economics economics)
    {
        string each = string.Join("; ", contenders.Where(c => c.Cause.Probability >= LeastTold).Select(c => string.Create(
            CultureInfo.InvariantCulture, $"{c.Cause.Name}, {100 * c.Cause.Probability:0} %: {c.Plan.Cost:0.00} {economics.Currency}")));
        return string.Create(
            CultureInfo.InvariantCulture,
            $"A check by hand, for whether repair is worth it depends on the cause ({each}; at most {contenders[0].Plan.Most:0.00} {economics.Currency} is).");
    }
}

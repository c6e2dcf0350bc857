using System.Globalization;

namespace Bench.Campaigns.Checks;

/// <summary>Prints the table of checks.</summary>
internal static class ChecksCommand
{
    /// <summary>All checks whose expected number is written down; with a seed also those against R and SciPy on data drawn from it.</summary>
    /// <returns>0 when all hold.</returns>
    public static int Run(int? seed)
    {
        List<Check> checks = [.. AllChecks.Of()];
        Print(checks);
        if (seed is int drawn)
        {
            checks.AddRange(Live(Oracle.R, RChecks.All(drawn)));
            checks.AddRange(Live(Oracle.SciPy, SciPyChecks.All(drawn)));
        }

        int failed = checks.Count(c => !c.Holds);
        Console.WriteLine($"RESULT checks={checks.Count} failed={failed}");
        return failed > 0 ? 1 : 0;
    }

    private static List<Check> Live(Oracle oracle, List<LiveCheck> asked)
    {
        (string? version, IReadOnlyList<double> answers, string? because) = oracle.Ask([.. asked.Select(a => a.Expression)]);
        Console.WriteLine();
        if (version is null)
        {
            Console.WriteLine($"skipped: {asked.Count} checks, {because}");
            return [];
        }

        Console.WriteLine($"against {version}, in this run:");
        List<Check> checks = [.. asked.Zip(answers, (a, expected) => new Check(a.Method, a.Case, version, expected, a.Got, a.LeastDigits))];
        Print(checks);
        return checks;
    }

    private static void Print(IReadOnlyList<Check> checks)
    {
        Console.WriteLine($"{"method",-36} {"case",-44} {"expected",-23} {"got",-23} {"digits",6} {"asked",6}  source");
        foreach (Check c in checks)
        {
            Console.WriteLine(string.Create(
                CultureInfo.InvariantCulture,
                $"{c.Method,-36} {c.Case,-44} {c.Expected,-23:R} {c.Got,-23:R} {c.Digits,6:0.0} {c.LeastDigits,6:0.0}{(c.Holds ? "  " : " !")}{c.Source}"));
        }
    }
}

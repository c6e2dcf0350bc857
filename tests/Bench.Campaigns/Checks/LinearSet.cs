namespace Bench.Campaigns.Checks;

/// <summary>A linear regression reference set of NIST's StRD.</summary>
/// <param name="Name">Its name.</param>
/// <param name="Coefficients">Certified estimates.</param>
/// <param name="StandardErrors">Certified standard deviations of the estimates.</param>
/// <param name="ResidualDeviation">Certified residual standard deviation.</param>
/// <param name="Regressors">One array for each coefficient.</param>
/// <param name="Y">The response.</param>
public sealed record LinearSet(
    string Name, double[] Coefficients, double[] StandardErrors, double ResidualDeviation, double[][] Regressors, double[] Y)
{
    /// <summary>Reads fixtures/checkdata/linear/NAME.txt.</summary>
    public static LinearSet Read(string name)
    {
        string[][] lines = [.. CheckData.Lines(Path.Combine("linear", name + ".txt"))
            .Where(l => l.Length > 0 && l[0] != '#').Select(l => l.Split(' '))];
        string[] model = lines.First(l => l[0] == "model");
        double[][] certified = [.. lines.Where(l => l[0] == "coefficient").Select(l => l.Skip(1).Select(CheckData.Number).ToArray())];
        double[][] rows = [.. lines.SkipWhile(l => l[0] != "data").Skip(1).Select(l => l.Select(CheckData.Number).ToArray())];
        return new LinearSet(
            name,
            [.. certified.Select(c => c[0])],
            [.. certified.Select(c => c[1])],
            CheckData.Number(lines.First(l => l[0] == "residual_deviation")[1]),
            Columns(model, rows),
            [.. rows.Select(r => r[0])]);
    }

    private static double[][] Columns(string[] model, double[][] rows)
    {
        double[] x = [.. rows.Select(r => r[1])];
        double[] ones = [.. x.Select(_ => 1.0)];
        return model[1] switch
        {
            "polynomial" => [.. Enumerable.Range(0, (int)CheckData.Number(model[2]) + 1).Select(k => Power(x, k))],
            "through-origin" => [x],
            "columns" => [ones, .. Enumerable.Range(1, rows[0].Length - 1).Select(j => rows.Select(r => r[j]).ToArray())],
            _ => throw new InvalidDataException($"model '{model[1]}'; allowed are polynomial, through-origin, columns"),
        };
    }

    // By repeated multiplication, which is exact for the whole numbers of the hard sets where Math.Pow need not be.
    private static double[] Power(double[] x, int k) =>
        [.. x.Select(v => Enumerable.Repeat(v, k).Aggregate(1.0, (a, b) => a * b))];
}

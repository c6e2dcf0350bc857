using MathNet.Numerics.Distributions;
using MathNet.Numerics.LinearAlgebra;
using MathNet.Numerics.LinearAlgebra.Factorization;

namespace Bench.Analysis.Statistics;

/// <summary>Least squares with several regressors, y = Σ b_j x_j + e, with intervals.</summary>
/// <param name="Coefficients">Estimates b_j, unit of y per unit of x_j.</param>
/// <param name="StandardErrors">Their standard errors; all 0 when nothing is left over.</param>
/// <param name="ResidualDeviation">Residual standard deviation, divisor n - p, unit of y.</param>
/// <param name="Freedom">Degrees of freedom n - p, at least 1.</param>
/// <param name="Condition">Condition number of the regressors, scaled to like lengths: how much an error grows when they are told apart.</param>
public sealed record LinearFit(
    IReadOnlyList<double> Coefficients, IReadOnlyList<double> StandardErrors, double ResidualDeviation, int Freedom, double Condition)
{
    /// <summary>Above this condition number no digit of a double is left, and there is no fit.</summary>
    public const double MostCondition = 1e13;

    /// <summary>Corrections after the first solution: each gains the digits the condition number leaves.</summary>
    private const int Corrections = 3;

    /// <summary>Half width of a coefficient's two-sided interval, Student's t with <see cref="Freedom"/> degrees.</summary>
    /// <param name="coefficient">Place of the coefficient, from 0.</param>
    /// <param name="confidence">Confidence, inside (0, 1).</param>
    public double HalfWidth(int coefficient, double confidence) =>
        StudentT.InvCDF(0, 1, Freedom, (1 + confidence) / 2) * StandardErrors[coefficient];

    /// <summary>
    /// The fit by orthogonal factorisation of the regressors scaled to like lengths, then corrected from its own residuals in
    /// twice the digits (Björck 1967); null when the regressors can't be told apart, or there are no more points than coefficients.
    /// </summary>
    /// <param name="regressors">One array for each coefficient, all as long as <paramref name="y"/>; give ones for an intercept.</param>
    /// <param name="y">Finite values.</param>
    /// <exception cref="ArgumentException">Lengths differ, or there is no regressor.</exception>
    public static LinearFit? Of(IReadOnlyList<double[]> regressors, double[] y)
    {
        ArgumentNullException.ThrowIfNull(regressors);
        ArgumentNullException.ThrowIfNull(y);
        if (regressors.Count == 0 || regressors.Any(r => r.Length != y.Length))
        {
            throw new ArgumentException("a fit needs regressors, each as long as y", nameof(regressors));
        }

        int p = regressors.Count;
        double[] squares = [.. regressors.Select(r => r.Sum(v => v * v))];
        if (y.Length <= p || squares.Any(s => !(s > 0) || !double.IsFinite(s)) || y.Any(v => !double.IsFinite(v)))
        {
            return null;
        }

        // A power of two near the length: dividing by it rounds nothing.
        double[] lengths = [.. squares.Select(s => Math.ScaleB(1, Math.ILogB(Math.Sqrt(s))))];

        Matrix<double> x = Matrix<double>.Build.Dense(y.Length, p, (i, j) => regressors[j][i] / lengths[j]);
        double condition = x.Svd(computeVectors: false).ConditionNumber;
        if (!(condition <= MostCondition))
        {
            return null;
        }

        QR<double> factors = x.QR(QRMethod.Thin);
        (Vector<double> b, Vector<double> rest) = Refined(x, Vector<double>.Build.Dense(y), factors);
        int freedom = y.Length - p;
        double deviation = rest.L2Norm() / Math.Sqrt(freedom);
        Matrix<double> inverse = factors.R.Solve(Matrix<double>.Build.DenseIdentity(p));
        return new LinearFit(
            [.. b.Select((v, j) => v / lengths[j])],
            [.. Enumerable.Range(0, p).Select(j => deviation * inverse.Row(j).L2Norm() / lengths[j])],
            deviation,
            freedom,
            condition);
    }

    // Coefficients b and residuals r are unknowns together: r + X b = y and X'r = 0. What a solution lacks of these is summed
    // in twice the digits and solved for with the factors at hand.
    private static (Vector<double> B, Vector<double> Residuals) Refined(Matrix<double> x, Vector<double> y, QR<double> factors)
    {
        double[][] rows = x.ToRowArrays();
        double[][] columns = x.ToColumnArrays();
        Vector<double> b = Vector<double>.Build.Dense(x.ColumnCount);
        Vector<double> r = Vector<double>.Build.Dense(x.RowCount);
        Matrix<double> transposed = factors.R.Transpose();
        for (int step = 0; step <= Corrections; step++)
        {
            Vector<double> f = Vector<double>.Build.Dense(x.RowCount, i => -AccurateSum.OfProducts(rows[i], b.AsArray(), -y[i], r[i]));
            Vector<double> g = Vector<double>.Build.Dense(x.ColumnCount, j => -AccurateSum.OfProducts(columns[j], r.AsArray(), 0, 0));
            Vector<double> along = factors.Q.TransposeThisAndMultiply(f) - transposed.Solve(g);
            b += factors.R.Solve(along);
            r += f - (factors.Q * along);
        }

        return (b, r);
    }
}

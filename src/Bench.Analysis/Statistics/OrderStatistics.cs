namespace Bench.Analysis.Statistics;

/// <summary>Values by rank without sorting all of them (Hoare 1961, with the middle of three as pivot): mean time proportional to their number.</summary>
internal static class OrderStatistics
{
    private const int Few = 16;

    /// <summary>Moves the value of a rank to its place: no value before it is greater, none after it smaller.</summary>
    /// <param name="values">Finite values; rearranged.</param>
    /// <param name="rank">Rank from 0.</param>
    /// <returns>The value.</returns>
    public static double Select(Span<double> values, int rank)
    {
        int low = 0;
        int high = values.Length - 1;
        while (high - low > Few)
        {
            double pivot = MiddleOfThree(values[low], values[low + ((high - low) / 2)], values[high]);
            int i = low;
            int j = high;
            while (i <= j)
            {
                while (values[i] < pivot)
                {
                    i++;
                }

                while (values[j] > pivot)
                {
                    j--;
                }

                if (i <= j)
                {
                    (values[i], values[j]) = (values[j], values[i]);
                    i++;
                    j--;
                }
            }

            // Left: low to j, right: i to high, between them the pivot.
            if (rank <= j)
            {
                high = j;
            }
            else if (rank >= i)
            {
                low = i;
            }
            else
            {
                return values[rank];
            }
        }

        values[low..(high + 1)].Sort();
        return values[rank];
    }

    /// <summary>Median; the mean of the two middle values when their number is even.</summary>
    /// <param name="values">At least one, all finite; rearranged.</param>
    public static double Median(Span<double> values)
    {
        int half = values.Length / 2;
        double upper = Select(values, half);
        if (values.Length % 2 == 1)
        {
            return upper;
        }

        double lower = values[0];
        foreach (double v in values[1..half])
        {
            lower = Math.Max(lower, v);
        }

        return (lower + upper) / 2;
    }

    private static double MiddleOfThree(double a, double b, double c) => Math.Max(Math.Min(a, b), Math.Min(Math.Max(a, b), c));
}

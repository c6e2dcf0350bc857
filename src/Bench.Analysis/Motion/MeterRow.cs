using Bench.Model.Traces;

namespace Bench.Analysis.Motion;

/// <summary>Meters and index of one sample.</summary>
internal readonly record struct MeterRow(double TimeS, double CurrentA, double VoltageV, IndexState Index)
{
    /// <summary>Volts or amperes beyond which a number is no meter's reading; sums and squares of what is left stay finite.</summary>
    private const double Most = 1e9;

    /// <summary>The meter rows of a slice, in order; those with a time, current or voltage that can't be one are left out.</summary>
    public static MeterRow[] Of(ReadOnlySpan<Sample> slice)
    {
        List<MeterRow> rows = [];
        foreach (Sample s in slice)
        {
            if (s.HasMeters && double.IsFinite(s.TimeS) && Math.Abs(s.CurrentA) <= Most && Math.Abs(s.VoltageV) <= Most)
            {
                rows.Add(new MeterRow(s.TimeS, s.CurrentA, s.VoltageV, s.Index));
            }
        }

        return [.. rows];
    }

    /// <summary>The rows between two instants, both included.</summary>
    public static ReadOnlySpan<MeterRow> Between(MeterRow[] rows, double fromS, double toS)
    {
        int first = Array.FindIndex(rows, r => r.TimeS >= fromS);
        int last = Array.FindLastIndex(rows, r => r.TimeS <= toS);
        return first < 0 || last < first ? [] : rows.AsSpan(first, last - first + 1);
    }

    /// <summary>Currents of rows, amperes.</summary>
    public static double[] Currents(ReadOnlySpan<MeterRow> rows)
    {
        double[] values = new double[rows.Length];
        for (int i = 0; i < values.Length; i++)
        {
            values[i] = rows[i].CurrentA;
        }

        return values;
    }

    /// <summary>Voltages of rows, volts.</summary>
    public static double[] Voltages(ReadOnlySpan<MeterRow> rows)
    {
        double[] values = new double[rows.Length];
        for (int i = 0; i < values.Length; i++)
        {
            values[i] = rows[i].VoltageV;
        }

        return values;
    }
}

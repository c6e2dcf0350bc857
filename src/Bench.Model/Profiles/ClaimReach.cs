using Bench.Model.Features;
using Bench.Model.Judging;
using Bench.Model.Returns;

namespace Bench.Model.Profiles;

/// <summary>Which judged units a table of claims has rows for: each kind of unit goes to the first row that fits it.</summary>
internal sealed class ClaimReach
{
    private readonly List<(Disposition Disposition, string? Cause, Symptom Symptom, SequentialState Demonstration)> _units = [];
    private readonly int[] _row;
    private int _rows;

    /// <summary>Begins with no row.</summary>
    /// <param name="causes">Ids of the faults.</param>
    public ClaimReach(IEnumerable<string> causes)
    {
        string?[] named = [null, .. causes];
        foreach (Symptom symptom in Enum.GetValues<Symptom>())
        {
            // A reusable unit has no cause, and its demonstration is shown.
            _units.Add((Disposition.Reusable, null, symptom, SequentialState.Shown));
            _units.AddRange(
                from disposition in new[] { Disposition.Repairable, Disposition.Scrap }
                from cause in named
                from state in Enum.GetValues<SequentialState>()
                select (disposition, cause, symptom, state));
        }

        _row = new int[_units.Count];
    }

    /// <summary>Adds a row.</summary>
    /// <returns>Numbers, from 1, of the earlier rows that take all units it fits; empty when some are left to it, or when it fits none.</returns>
    public IReadOnlyList<int> Add(ClaimRule rule)
    {
        _rows++;
        SortedSet<int> earlier = [];
        bool reached = false;
        for (int i = 0; i < _row.Length; i++)
        {
            (Disposition disposition, string? cause, Symptom symptom, SequentialState demonstration) = _units[i];
            if (!rule.Fits(disposition, cause, symptom, demonstration))
            {
                continue;
            }

            reached |= _row[i] == 0;
            earlier.Add(_row[i]);
            _row[i] = _row[i] == 0 ? _rows : _row[i];
        }

        return reached ? [] : [.. earlier];
    }
}

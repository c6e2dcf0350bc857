namespace Bench.Model.Configuration;

/// <summary>Finds what the user most likely meant.</summary>
internal static class NearestName
{
    /// <summary>
    /// The name with the least edit distance (insertions, deletions, substitutions) from a misspelt one; null when all
    /// differ in more than a third of the letters and more than two, or in all letters there are.
    /// </summary>
    public static string? Of(string misspelt, IEnumerable<string> names)
    {
        string? nearest = null;
        int least = 1 + Math.Min(misspelt.Length - 1, Math.Max(2, misspelt.Length / 3));
        foreach (string name in names)
        {
            // The lengths alone already differ by this much; long garbage is not worth a table.
            if (Math.Abs(name.Length - misspelt.Length) < least && Distance(misspelt, name) is int d && d < least)
            {
                (nearest, least) = (name, d);
            }
        }

        return nearest;
    }

    /// <summary>Levenshtein's distance.</summary>
    public static int Distance(string a, string b)
    {
        int[] row = [.. Enumerable.Range(0, b.Length + 1)];
        for (int i = 1; i <= a.Length; i++)
        {
            int diagonal = row[0];
            row[0] = i;
            for (int j = 1; j <= b.Length; j++)
            {
                int substituted = diagonal + (a[i - 1] == b[j - 1] ? 0 : 1);
                diagonal = row[j];
                row[j] = Math.Min(substituted, 1 + Math.Min(row[j], row[j - 1]));
            }
        }

        return row[b.Length];
    }

    /// <summary>Advice for an unknown name: the nearest, else all there are.</summary>
    public static string Advice(string misspelt, IReadOnlyCollection<string> names) =>
        Of(misspelt, names) is string nearest ? $"did you mean '{nearest}'?"
        : names.Count == 0 ? "nothing is allowed here"
        : $"allowed: {string.Join(", ", names)}";
}

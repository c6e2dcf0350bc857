namespace Bench.Model.Configuration;

/// <summary>Tells a file given in another's place by the table only its own kind has: one sentence instead of an error for each key.</summary>
internal static class FileKinds
{
    /// <summary>A profile.</summary>
    public const string Profile = "profile";

    /// <summary>A bench file.</summary>
    public const string Bench = "bench file";

    /// <summary>A units file.</summary>
    public const string Units = "units file";

    // A profile has a table [unit], a units file tables [[unit]].
    private static readonly (string Kind, string Mark, bool Repeated, string Option)[] All =
        [(Profile, "family", false, "--profile"), (Bench, "position", true, "--bench"), (Units, "unit", true, "--units")];

    /// <summary>Refuses a file that is of another kind.</summary>
    /// <param name="document">The file.</param>
    /// <param name="fileName">Its name.</param>
    /// <param name="wanted">The kind it must be.</param>
    /// <exception cref="ConfigurationException">It is of another.</exception>
    public static void Demand(Section document, string fileName, string wanted)
    {
        foreach ((string kind, string mark, bool repeated, string option) in All)
        {
            if (document.Holds(mark, repeated))
            {
                if (kind != wanted)
                {
                    throw new ConfigurationException(
                        [new ConfigurationError(fileName, 0, "file", $"a {kind}", $"a {wanted} is needed here; give this {kind} with {option}")]);
                }

                return;
            }
        }
    }
}

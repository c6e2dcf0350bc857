namespace Bench.Model.Configuration;

/// <summary>One thing wrong in a profile or bench file.</summary>
/// <param name="File">Name of the file as the user gave it.</param>
/// <param name="Line">Line, from 1; 0 when the whole file is meant.</param>
/// <param name="Key">Full key, e.g. <c>safety.dead_time_ms</c> or <c>limit[3].upper</c>.</param>
/// <param name="Found">What stands there.</param>
/// <param name="Allowed">What is allowed, and the nearest name where a name is unknown.</param>
public sealed record ConfigurationError(string File, int Line, string Key, string Found, string Allowed)
{
    /// <summary>One line for a person.</summary>
    public override string ToString() =>
        Line > 0 ? $"{File}:{Line}: {Key}: found {Found}; {Allowed}" : $"{File}: {Key}: found {Found}; {Allowed}";
}

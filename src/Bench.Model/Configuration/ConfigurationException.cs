namespace Bench.Model.Configuration;

/// <summary>A file of the user's cannot be used; carries everything wrong in it at once.</summary>
public sealed class ConfigurationException : Exception
{
    /// <summary>Makes the exception.</summary>
    /// <param name="errors">All errors, at least one.</param>
    public ConfigurationException(IReadOnlyList<ConfigurationError> errors)
        : base(string.Join(Environment.NewLine, errors))
    {
        Errors = errors;
    }

    /// <summary>All errors.</summary>
    public IReadOnlyList<ConfigurationError> Errors { get; }
}

namespace Bench.Model.Configuration;

/// <summary>Refuses a name or place that is used twice.</summary>
/// <param name="what">What is named, for the message.</param>
internal sealed class UniqueNames(string what)
{
    private readonly List<string> _names = [];

    /// <summary>All names so far.</summary>
    public IReadOnlyList<string> All => _names;

    /// <summary>Takes a name; null, a name that could not be read, is passed over.</summary>
    /// <param name="section">Where it stands.</param>
    /// <param name="key">Key it stands at.</param>
    /// <param name="name">The name.</param>
    /// <param name="found">What a message shows; null for what stands there.</param>
    public void Take(Section section, string key, string? name, string? found = null)
    {
        if (name is not null && _names.Contains(name, StringComparer.Ordinal))
        {
            section.Refuse(key, found, $"each {what} is allowed once");
        }
        else if (name is not null)
        {
            _names.Add(name);
        }
    }

    /// <summary>Refuses a reference to a name that is not there.</summary>
    public void Expect(Section section, string key, string? name)
    {
        if (name is not null && !_names.Contains(name, StringComparer.Ordinal))
        {
            section.Refuse(key, null, $"there is no such {what}; {NearestName.Advice(name, _names)}");
        }
    }
}

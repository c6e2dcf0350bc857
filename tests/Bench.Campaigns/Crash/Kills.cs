namespace Bench.Campaigns.Crash;

/// <summary>Kills by what was under way, and what came of them.</summary>
internal sealed class Kills
{
    private readonly SortedDictionary<string, int> _done = new(StringComparer.Ordinal);

    /// <summary>How many processes were killed while something was under way.</summary>
    public IReadOnlyDictionary<string, int> Done => _done;

    /// <summary>What is not as it must be.</summary>
    public List<string> Problems { get; } = [];

    /// <summary>Things that stores had acknowledged.</summary>
    public long Acknowledged { get; set; }

    /// <summary>Counts one.</summary>
    public void Count(string during) => _done[during] = _done.GetValueOrDefault(during) + 1;

    /// <summary>Notes problems with where they came up.</summary>
    public void Note(string where, IEnumerable<string> problems) => Problems.AddRange(problems.Select(p => $"{where}: {p}"));
}

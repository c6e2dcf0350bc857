namespace Bench.Simulation.Benches;

/// <summary>Which links of a simulated bench are open, and which have no port to open.</summary>
internal sealed class OpenLinks
{
    private readonly Lock _lock = new();
    private readonly Dictionary<string, SimulatedLink> _open = [];
    private readonly HashSet<string> _hidden = [];

    /// <summary>Takes a link as open; false when it is open already.</summary>
    internal bool TryTake(SimulatedLink link)
    {
        lock (_lock)
        {
            return _open.TryAdd(link.Name, link);
        }
    }

    /// <summary>Takes note that a link was closed.</summary>
    internal void GiveBack(SimulatedLink link)
    {
        lock (_lock)
        {
            if (_open.GetValueOrDefault(link.Name) == link)
            {
                _open.Remove(link.Name);
            }
        }
    }

    /// <summary>Cuts a link if it is open.</summary>
    internal void Cut(string name)
    {
        SimulatedLink? link;
        lock (_lock)
        {
            _open.Remove(name, out link);
        }

        link?.Cut();
    }

    /// <summary>Takes a port away, or puts it back.</summary>
    internal void Hide(string name, bool hidden)
    {
        lock (_lock)
        {
            _ = hidden ? _hidden.Add(name) : _hidden.Remove(name);
        }
    }

    /// <summary>Whether a port is away.</summary>
    internal bool IsHidden(string name)
    {
        lock (_lock)
        {
            return _hidden.Contains(name);
        }
    }
}

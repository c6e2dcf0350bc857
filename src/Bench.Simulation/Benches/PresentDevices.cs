using System.Collections;
using System.Diagnostics.CodeAnalysis;
using Bench.Devices.Modbus.Server;

namespace Bench.Simulation.Benches;

/// <summary>Devices on a link that can be heard at this instant. One whose wires are parted is not there.</summary>
internal sealed class PresentDevices(IReadOnlyDictionary<int, RegisterMap> all, Func<int, bool> canBeHeard)
    : IReadOnlyDictionary<int, RegisterMap>
{
    public int Count => all.Count(d => canBeHeard(d.Key));

    public IEnumerable<int> Keys => all.Keys;

    public IEnumerable<RegisterMap> Values => all.Where(d => canBeHeard(d.Key)).Select(d => d.Value);

    public RegisterMap this[int key] => all[key];

    // Whether it has ever been wired: a frame to it is a frame, answered or not.
    public bool ContainsKey(int key) => all.ContainsKey(key);

    public bool TryGetValue(int key, [MaybeNullWhen(false)] out RegisterMap value) =>
        all.TryGetValue(key, out value) && canBeHeard(key);

    public IEnumerator<KeyValuePair<int, RegisterMap>> GetEnumerator() => all.GetEnumerator();

    IEnumerator IEnumerable.GetEnumerator() => GetEnumerator();
}
